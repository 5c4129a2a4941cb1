import { wrapDelay } from "../../harvest/route-details/wrap-delay.ts";
import { WRAPPING } from "../../harvest/route-details/wrapping.ts";
import { HOUR_MS, localDayKey } from "../../weather/clock.ts";
import type { Entry } from "../kinds.ts";
import type { CutOperationDoc } from "../work-docs.ts";
import { type DueItem, type Ground, hourText, itemOf } from "./item.ts";

/** When the film has to be on: hours from the end of baling. */
export function wrapByMs(baledMs: number): number {
  return baledMs + WRAPPING.lateH.value * HOUR_MS;
}

/** What to say of film that is not on yet. */
export function wrapText(baledMs: number, nowUtcMs: number): string {
  const sinceH = (nowUtcMs - baledMs) / HOUR_MS;
  return sinceH > WRAPPING.lateH.value ? wrapDelay(Math.min(sinceH, 10_000)).text : wrapDelay(0).text;
}

interface Pass {
  /** Place among the cut's operations. */
  readonly i: number;
  readonly done: boolean;
  readonly beginMs: number;
  readonly endMs: number;
}

/** The passes of a kind, each by what was done of it, else by its plan; in the order of time. */
function passesOf(operations: readonly CutOperationDoc[], kind: CutOperationDoc["kind"]): Pass[] {
  return operations
    .flatMap(({ kind: what, doneUtc, doneEndUtc, plannedUtc }, i) => {
      const done = Boolean(doneUtc ?? doneEndUtc);
      const begin = doneUtc ?? doneEndUtc ?? plannedUtc;
      if (what !== kind || !begin) return [];
      return [{ i, done, beginMs: Date.parse(begin), endMs: Date.parse(doneEndUtc ?? begin) }];
    })
    .sort((a, b) => a.endMs - b.endMs);
}

/**
 * The film of each baling that has none yet: by when, and when it is planned. A baling is filmed where wrapping went on
 * after it began, and to its end where both ends are known.
 *
 * @param lotsStoredMs when lots of the cut were stored: the film of what was baled by then is the lot's
 */
export function filmItems(
  cut: Entry<"cuts">,
  name: string,
  ground: Ground,
  lotsStoredMs: readonly number[],
): DueItem[] {
  const { route, operations: given } = cut.doc;
  const operations = given ?? [];
  if (route !== "wrapped-bales") return [];
  const { timeZone } = ground;
  const wraps = passesOf(operations, "wrap");
  const filmed = (baling: Pass) =>
    wraps.some(({ done, i, endMs }) => {
      const ended = operations[i]?.doneEndUtc ? baling.endMs : baling.beginMs;
      return done && endMs >= ended;
    });
  const dayOf = (ms: number) => localDayKey(ms, timeZone);
  const stored = (baling: Pass) => lotsStoredMs.some((ms) => dayOf(ms) >= dayOf(baling.beginMs));
  const planned = wraps.filter(({ done }) => !done);
  const balings = passesOf(operations, "bale");
  const firstI = Math.min(...balings.map(({ i }) => i));
  return balings
    .filter((baling) => !stored(baling) && !(baling.done && filmed(baling)))
    .map(({ i, endMs, done }, k) => {
      const byMs = wrapByMs(endMs);
      const planMs = planned[k]?.beginMs ?? byMs;
      const baled =
        balings.length > 1 ? `${done ? "Baled" : "To be baled"} ${hourText(endMs, timeZone)}. ` : "";
      const late = planMs > byMs ? `Planned for ${hourText(planMs, timeZone)}, which is late. ` : "";
      return itemOf(ground, {
        work: "wrap",
        part: i === firstI ? "" : `bale-${i}`,
        name,
        verb: "wrap",
        text: `${baled}${late}Film on by ${hourText(byMs, timeZone)}. ${wrapText(endMs, ground.nowUtcMs)}`,
        atMs: Math.min(planMs, byMs),
        byMs,
        source: WRAPPING.lateH.source,
      });
    });
}
