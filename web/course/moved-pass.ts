import type { CutOptionAnswer, OperationAnswer, RouteAnswer } from "../../model/harvest/index.ts";
import { HARVEST_LIMITS } from "../../model/harvest/index.ts";
import {
  addDays,
  HOUR_MS,
  localDayKey,
  localParts,
  MINUTE_MS,
  utcOfLocal,
} from "../../model/weather/clock.ts";
import { clockText, dayClockText, utcMs } from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { windowTimes } from "../format/window-times.ts";
import type { Inputs, TextField } from "../state/inputs.ts";
import { isGone } from "./to-course.ts";
import { toldMs } from "./told-ms.ts";

/** What a pass is moved in. */
export interface PassPlace {
  /** What the fields say now: the rule is set in them. */
  readonly inputs: Inputs;
  readonly option: CutOptionAnswer;
  readonly route: RouteAnswer;
  /** End of the weather that can be used. */
  readonly endMs: number;
  readonly manner: Manner;
}

/** A pass put elsewhere: the rule for all rows that puts it there, or why it cannot lie there. */
export type MovedPass =
  | {
      readonly ok: true;
      readonly inputs: Inputs;
      /** Where the rule puts the pass of this row, UTC ms: the whole hour next to where it was dropped. */
      readonly atMs: number;
      /** "Ted the morning after the cut, 10:00". */
      readonly rule: string;
    }
  | {
      readonly ok: false;
      readonly reason: string;
      /** The same in a few words, for the place itself: "only after the cut". */
      readonly short: string;
    };

type Passes = "ted" | "rake";

const PASS_NAMES: Readonly<Record<Passes, string>> = { ted: "Ted", rake: "Rake" };

function withRule(inputs: Inputs, choice: Partial<Inputs>, field: TextField, value: number): Inputs {
  return {
    ...inputs,
    ...choice,
    texts: { ...inputs.texts, [field]: { text: String(value), units: "metric" } },
  };
}

const impossible = (short: string, reason: string): MovedPass => ({ ok: false, reason, short });

/** The window that the pass is for: the first that opens at or after it now. */
function windowAfter(route: RouteAnswer, nowMs: number) {
  return route.windows.find(({ startUtc }) => utcMs(startUtc) >= nowMs) ?? null;
}

function movedTed(place: PassPlace, cutMs: number, mowMs: number, atMs: number): MovedPass {
  const { inputs, manner } = place;
  const { zone } = manner;
  const dayAfter = addDays(localDayKey(mowMs, zone), 1);
  const { dayKey, hour, minute } = localParts(atMs + HOUR_MS / 2, zone);
  if (dayKey === dayAfter) {
    const nearMs = atMs + HOUR_MS / 2 - minute * MINUTE_MS;
    const local = utcOfLocal(zone, dayAfter, hour);
    const ruleMs = local.kind === "one" ? local.utcMs : local.kind === "twice" ? local.firstUtcMs : null;
    // The rule takes an hour that comes twice the first time: its second time is told in hours from the cut.
    if (ruleMs !== null && nearMs - ruleMs < HOUR_MS) {
      const next = withRule(inputs, { ted: "morning-after" }, "tedHour", hour);
      const rule = `Ted on the day after the cut, ${clockText(ruleMs, manner)}`;
      return { ok: true, inputs: next, atMs: ruleMs, rule };
    }
  }
  const hours = Math.max(0, Math.round((atMs - cutMs) / HOUR_MS));
  const { max } = HARVEST_LIMITS.planHours;
  if (hours > max)
    return impossible(
      "too long after the cut",
      `Tedding can be set up to ${numberText(max, 0, manner)} h after the cut.`,
    );
  const next = withRule(inputs, { ted: "after-cut" }, "tedAfterH", hours);
  const rule = `Ted ${numberText(hours, 0, manner)} h after the cut`;
  return { ok: true, inputs: next, atMs: cutMs + hours * HOUR_MS, rule };
}

function movedRake(place: PassPlace, atMs: number): MovedPass {
  const { inputs, manner, route } = place;
  if (route.beforeWindow === undefined)
    return impossible("no window to rake for", "Raking waits for a window, and this route has none.");
  const fromMs = utcMs(route.beforeWindow.windowUtc);
  const earliestMs = utcMs(route.beforeWindow.earliestUtc);
  // Where the day starts between two whole hours, the next longer rule reaches back to its start.
  const most = Math.ceil((fromMs - earliestMs) / HOUR_MS);
  const hours = Math.round((fromMs - atMs) / HOUR_MS);
  if (hours < 0)
    return impossible(
      "the window is open by then",
      `Raking comes before the window, which opens ${dayClockText(toldMs(fromMs), manner)}.`,
    );
  if (hours > most)
    return impossible(
      "only on the day of its window",
      `Raking comes on the working day of its window, which starts ${dayClockText(toldMs(earliestMs), manner)}.`,
    );
  const rakeMs = Math.max(earliestMs, fromMs - hours * HOUR_MS);
  const ted = route.operations.findLast(({ kind, atUtc }) => kind === "ted" && utcMs(atUtc) > rakeMs);
  if (ted)
    return impossible(
      "only after the tedding",
      `Raking comes after the tedding, ${dayClockText(toldMs(ted.atUtc), manner)}.`,
    );
  const next = withRule(inputs, { rake: "before-window" }, "rakeBeforeH", hours);
  const rule =
    hours === 0 ? "Rake as the window opens" : `Rake ${numberText(hours, 0, manner)} h before the window`;
  return { ok: true, inputs: next, atMs: rakeMs, rule };
}

/**
 * A pass of one row moved in time, as a rule for every row: tedding on the local day after the cut goes by the hour of
 * day, at any other time by whole hours after the cut; raking by whole hours before the window.
 *
 * @param nowUtc where the pass lies now
 * @param toMs where it is dropped, UTC ms
 */
export function movedPass(
  place: PassPlace,
  kind: OperationAnswer["kind"],
  nowUtc: string,
  toMs: number,
): MovedPass {
  const { option, route, endMs, manner } = place;
  if (kind === "invert" || option.courseCutUtc === null)
    return impossible("this pass has no rule", "This pass has no rule that could be moved.");
  const cutMs = utcMs(option.courseCutUtc);
  const mowMs = utcMs(option.cutUtc ?? option.courseCutUtc);
  const nowMs = utcMs(nowUtc);
  const name = PASS_NAMES[kind];
  if (toMs < cutMs)
    return impossible(
      "only after the cut",
      `${name} after the cut: half the field is down at ${dayClockText(toldMs(cutMs), manner)}.`,
    );
  const [first] = route.windows;
  if (isGone(route, nowMs) && isGone(route, toMs) && first)
    return impossible(
      "the crop is in by then",
      `${name} before the window closes, ${dayClockText(windowTimes(first).endMs, manner)}: the crop is in by then.`,
    );
  if (toMs >= endMs)
    return impossible(
      "the weather ends before",
      `The weather ends ${dayClockText(endMs, manner)}: a pass has to lie before it.`,
    );
  const window = windowAfter(route, nowMs);
  const windowMs = window === null ? null : utcMs(window.startUtc);
  const moved = kind === "rake" ? movedRake(place, toMs) : movedTed(place, cutMs, mowMs, toMs);
  if (moved.ok && kind === "ted" && windowMs !== null && moved.atMs > windowMs)
    return impossible(
      "the window is open by then",
      `Tedding comes before the window, which opens ${dayClockText(toldMs(windowMs), manner)}.`,
    );
  if (moved.ok && moved.atMs < cutMs)
    return impossible(
      "only after the cut",
      `${name} after the cut: half the field is down at ${dayClockText(toldMs(cutMs), manner)}.`,
    );
  return moved;
}
