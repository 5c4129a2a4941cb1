import { useEffect, useState } from "preact/hooks";
import type { DrydownAnswer } from "../../model/drying/index.ts";
import type { Tries } from "../app/use-model.ts";
import type { Picture } from "../state/state.ts";
import type { RouteOfRow } from "./moments.ts";

/**
 * The course of a route of a row: the page's own where it shows that route, else worked out beside it, since each route
 * has passes of its own. Null until it is there, and for what stands.
 */
export function useCourseOf(
  picture: Picture | null,
  row: RouteOfRow | null,
  tries: Tries,
): DrydownAnswer | null {
  const [other, setOther] = useState<{ readonly key: string; readonly course: DrydownAnswer } | null>(null);
  const shown = picture?.course ?? null;
  const optionId = row?.option.id ?? null;
  const route = row?.route.route ?? null;
  const own = shown !== null && shown.optionId === optionId && shown.route === route ? shown.course : null;
  const lies = row?.option.kind === "swath";
  const key = picture && lies && own === null ? `${picture.id} ${optionId} ${route}` : null;
  useEffect(() => {
    if (key === null || picture === null || optionId === null) return;
    let gone = false;
    tries([{ request: picture.request, row: { optionId, route } }]).then(([tried]) => {
      const course = tried?.course?.course;
      if (!gone && course) setOther({ key, course });
    });
    return () => {
      gone = true;
    };
  }, [key]);
  return own ?? (other !== null && other.key === key ? other.course : null);
}
