import { useEffect, useState } from "preact/hooks";
import type { WeatherSeries } from "../../model/weather/index.ts";
import { newId } from "../book/new-id.ts";
import { type CrewDraft, draftOf, spotsOf } from "./crew-draft.ts";
import { forgetDraft, keepDraft, keptDraft } from "./crew-store.ts";
import { demoCrew } from "./demo-crew.ts";
import { withGone } from "./gone.ts";

export interface DraftOnPage {
  /** Null until the device has been asked. */
  readonly draft: CrewDraft | null;
  /** The crew is somebody's own from here on. */
  readonly change: (next: CrewDraft) => void;
  /** What became of it: given out, put into the book. */
  readonly note: (part: Partial<CrewDraft>) => CrewDraft | null;
  /** Back to the invented crew. */
  readonly forget: () => CrewDraft | null;
}

function demoDraft(series: WeatherSeries): CrewDraft {
  const demo = demoCrew(series);
  return { ...draftOf(demo, newId()), spots: spotsOf(demo), invented: true };
}

/** The crew that the plan is of: the device's own, else the invented one. */
export function useDraft(series: WeatherSeries | null, onFirst: (draft: CrewDraft) => void): DraftOnPage {
  const [draft, setDraft] = useState<CrewDraft | null>(null);
  const ready = series !== null;
  useEffect(() => {
    if (series === null) return;
    let gone = false;
    keptDraft().then((kept) => {
      if (gone) return;
      const first = kept ?? demoDraft(series);
      setDraft(first);
      onFirst(first);
    });
    return () => {
      gone = true;
    };
  }, [ready]);
  const keep = (next: CrewDraft) => {
    setDraft(next);
    void keepDraft(next);
    return next;
  };
  return {
    draft,
    // Another plan, from a file, brings its own names.
    change: (next) =>
      keep({ ...(draft?.planId === next.planId ? withGone(draft, next) : next), invented: false }),
    note: (part) => draft && keep({ ...draft, ...part }),
    forget: () => {
      if (series === null) return null;
      const demo = demoDraft(series);
      setDraft(demo);
      void forgetDraft();
      return demo;
    },
  };
}
