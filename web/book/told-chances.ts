import type { ToldChanceDoc } from "../../model/book/index.ts";
import { WINDOW_EVENT } from "../../model/odds/came.ts";
import type { Choice } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";
import { routeBands } from "../worker/route-bands.ts";

/**
 * What was told of a cut for each route, as the book keeps it: the chance of its first window that is not over at the
 * issue. Of later windows nothing is known once the crop is in. Pure.
 */
export function toldChances(
  { request }: Pick<Picture, "request">,
  { option }: Pick<Choice, "option">,
  issuedUtc: string,
): readonly ToldChanceDoc[] {
  const bands = new Map(routeBands(request).map(({ route, bandWb }) => [route, bandWb]));
  return option.routes.flatMap(({ route, windows }): ToldChanceDoc[] => {
    const first = windows.find(({ endUtc }) => Date.parse(endUtc) > Date.parse(issuedUtc));
    if (first === undefined || first.chance === null) return [];
    const bandWb = bands.get(route);
    return [
      {
        id: `${WINDOW_EVENT}-${route}`,
        what: WINDOW_EVENT,
        route,
        fromUtc: first.startUtc,
        toUtc: first.endUtc,
        ...(option.cutUtc === null ? {} : { cutUtc: option.cutUtc }),
        ...(bandWb === undefined ? {} : { bandWb }),
        chance: first.chance,
      },
    ];
  });
}
