import type { CutOptionAnswer, RouteAnswer, WindowLimit } from "../../model/harvest/answer.ts";
import type { RouteKey } from "../../model/harvest/keys.ts";
import { inTen } from "../../model/odds/in-ten.ts";
import { listText, ROUTE_LETTERS, ROUTE_ORDER, ROUTE_SHORT, sentenceCase } from "../format/words.ts";
import { type Unplanned, unplannedOf } from "./unplanned.ts";

/** Why a route has no window, short enough to stand on a row. The model's own sentence stands in the table. */
export const LIMIT_WORDS: Readonly<Record<WindowLimit, string>> = {
  "standing-too-wet": "standing crop too wet",
  rain: "rain comes first",
  "air-too-humid": "air too humid",
  "over-dry": "too dry too soon",
  dew: "dew on the swath",
  "soil-too-wet": "ground too wet",
  "working-hours": "ready outside working hours",
  "too-few-hours": "too few hours",
  "slow-drying": "dries too slowly",
  "forecast-too-short": "weather ends first",
};

/** The reasons of an option without windows, from the fullest wording to the shortest. */
export function reasonWordings(option: CutOptionAnswer): string[] {
  const likely = unplannedWordings(option);
  return likely.length > 0 ? likely : limitWordings(option);
}

/**
 * Of routes that have their chance all the same: the reason of the main forecast alone is half of the answer. Each begins
 * with what the row has, none, for a chance by itself would read as a window; none where nothing is likely enough.
 */
function unplannedWordings(option: CutOptionAnswer): string[] {
  const unplanned = unplannedOf(option);
  const [likely] = unplanned;
  if (!likely) return [];
  const name = ({ route }: Unplanned) => ROUTE_SHORT[route.route];
  const why = ({ route: { limitedBy } }: Unplanned) =>
    limitedBy === null ? "" : `${LIMIT_WORDS[limitedBy]}, yet `;
  const head = sentenceCase(`${name(likely)}: ${why(likely)}${inTen(likely.chance)}`);
  const others = unplanned.slice(1).map((one) => `; ${name(one)}: ${why(one)}${inTen(one.chance)}`);
  return [
    ...new Set([
      `No window in the main forecast. ${head} of its courses have one${others.join("")}`,
      `No window in the main forecast. ${head} of its courses have one`,
      `No window. ${head} courses have one`,
      `No window; ${name(likely)} in ${inTen(likely.chance)} courses`,
      "No window",
    ]),
  ];
}

function limitWordings(option: CutOptionAnswer): string[] {
  if (option.kind === "standing")
    return option.routes.flatMap(({ limitedBy }) =>
      limitedBy === null ? [] : [`No window: ${LIMIT_WORDS[limitedBy]}`, LIMIT_WORDS[limitedBy]],
    );
  const routes = ROUTE_ORDER.map((key) => option.routes.find(({ route }) => route === key)).filter(
    (route): route is RouteAnswer => route !== undefined && route.limitedBy !== null,
  );
  const byLimit = new Map<WindowLimit, RouteKey[]>();
  for (const { route, limitedBy } of routes) {
    if (limitedBy === null) continue;
    byLimit.set(limitedBy, [...(byLimit.get(limitedBy) ?? []), route]);
  }
  const limits = [...byLimit].sort((a, b) => b[1].length - a[1].length);
  const [most] = limits;
  if (!most) return ["No window"];
  const worded = (names: Readonly<Record<RouteKey, string>>) =>
    limits.map(([limit, keys]) => `${listText(keys.map((key) => names[key]))}: ${LIMIT_WORDS[limit]}`);
  const full = worded(ROUTE_SHORT).join("; ");
  // Each reason stays beside its route: where names have no room, by the letters of the key.
  const lettered = worded(ROUTE_LETTERS);
  return limits.length === 1
    ? [`No window: ${LIMIT_WORDS[most[0]]}`, LIMIT_WORDS[most[0]]]
    : [`No window: ${full}`, full, lettered.join("; "), lettered[0] ?? ""];
}

export interface PlacedReason {
  /** One line, or three where the row is tall. */
  readonly lines: readonly string[];
  readonly x: number;
  readonly anchor: "start" | "end";
}

/** Widest a character of the chart's type runs on average, px at 13 px. */
const PX_PER_CHARACTER = 6.6;

export function textWidthPx(text: string): number {
  return text.length * PX_PER_CHARACTER;
}

/** The words broken into as many lines of this width as allowed; null where they do not fit. */
function brokenInto(words: string, roomPx: number, mostLines: number): string[] | null {
  const lines: string[] = [];
  for (const word of words.split(" ")) {
    const last = lines.at(-1);
    const longer = last === undefined ? word : `${last} ${word}`;
    if (textWidthPx(longer) <= roomPx) lines[Math.max(0, lines.length - 1)] = longer;
    else if (textWidthPx(word) <= roomPx) lines.push(word);
    else return null;
  }
  return lines.length <= mostLines ? lines : null;
}

/** The fullest wording that fits on the side of the cut mark with more room; the shortest where none does. */
export function placeReason(
  wordings: readonly string[],
  cutX: number,
  x0: number,
  x1: number,
  mostLines: number,
): PlacedReason | null {
  const right = x1 - cutX - 16;
  const left = cutX - x0 - 12;
  const anchor = right >= left ? "start" : "end";
  const room = Math.max(right, left);
  const broken = wordings.map((words) => brokenInto(words, room, mostLines)).find((lines) => lines !== null);
  const shortest = wordings.at(-1);
  const lines = broken ?? (shortest === undefined ? null : [shortest]);
  return lines && { lines, x: anchor === "start" ? cutX + 12 : cutX - 8, anchor };
}
