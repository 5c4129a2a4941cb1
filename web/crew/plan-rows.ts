import { lagMsOf } from "../../model/crew/grid-field.ts";
import {
  type CrewCaution,
  type CrewJobAnswer,
  type CrewPlanAnswer,
  isOfFeed,
} from "../../model/crew/index.ts";
import { isGather, opOrder } from "../../model/crew/keys.ts";
import { wholePercent } from "../../model/odds/in-ten.ts";
import { HOUR_MS, MINUTE_MS } from "../../model/weather/clock.ts";
import { utcLabel } from "../../model/weather/labels.ts";
import { utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { hoursText } from "../format/words.ts";
import type { Caution } from "./all-faults.ts";
import { faultWords } from "./Cautions.tsx";
import { OP_LABELS } from "./crew-chart.ts";
import { jobKey } from "./job-key.ts";
import { visitSpan, visitTime } from "./visit-span.ts";

/** What a work's row of the plan's table says, column by column. */
export interface PlanRow {
  readonly key: string;
  readonly field: string;
  readonly work: string;
  readonly machine: string;
  readonly who: string;
  readonly starts: string;
  readonly ends: string;
  readonly window: string;
  readonly spare: string;
  readonly chance: string;
  readonly caution: string;
}

/** Said by a code in few words; the whole sentence stands above the chart or beside the chosen work. */
const SHORT: Readonly<Record<string, string | undefined>> = {
  window: "outside its window",
  weather: "against weather, light or crop",
  lag: "too late after the work before",
  windrow: "long in the windrow",
  hours: "outside working hours, or away",
  order: "before the work before it has ended",
  duration: "takes longer than that",
  travel: "machine or person is elsewhere",
  wet: "likely too wet",
  "broken-off": "broken off, not finished",
  "not-begun": "was due, not begun",
  "would-lie": "would lie mown: do not mow",
  "given-up": "lies mown, given up",
  "held-in-vain": "waits for works that are not planned",
  "before-cutting": "insurer and labels first",
  test: "sample before cutting",
  hazard: "in doubt after weather: test it",
  feed: "cautions before feeding",
};

/** Until when a mowing lies in a wait, and what is to be done before it; null where it lies in none. */
function waitText(caution: Caution | CrewCaution, manner: Manner): string | null {
  const wait = "wait" in caution ? caution.wait : undefined;
  if (wait === undefined) return null;
  const lasts = wait.untilUtc === null ? "past this weather" : `until ${visitTime(wait.untilUtc, manner)}`;
  return `in a wait ${lasts}: sample the standing crop first`;
}

/** Where there is nothing to be said. */
export const NONE = "–";

/** What leaves a work its hours: from when, by when it must have ended, and by when begun; null = nothing sets that. */
interface Room {
  readonly fromUtc: string;
  readonly endByUtc: string | null;
  readonly beginByUtc: string | null;
}

/** From when to when the mowing, daylight and the work before it leave a work; null where nothing does. */
function roomOf(
  { windows, jobs }: Pick<CrewPlanAnswer, "windows" | "jobs">,
  job: CrewJobAnswer,
): Room | null {
  const own = windows.find(({ fieldId, op }) => fieldId === job.fieldId && op === job.op);
  // What is done or under way needs no room.
  if (own === undefined) return null;
  const [fromMs, toMs] = [utcMs(job.startUtc), utcMs(job.endUtc)];
  // A window may reach over a night: after dark, or in the next rain, there is nothing to spare.
  const open = own.openUtc.find(({ fromUtc, toUtc }) => utcMs(fromUtc) <= fromMs && toMs <= utcMs(toUtc));
  const before = jobs
    .filter(({ fieldId, op }) => fieldId === job.fieldId && opOrder(op) < opOrder(job.op))
    .reduce<CrewJobAnswer | null>(
      (last, one) => (last === null || opOrder(one.op) > opOrder(last.op) ? one : last),
      null,
    );
  const lagMs = before === null ? null : lagMsOf(job.op, before.op === "rake");
  const beginByUtc = before === null || lagMs === null ? null : utcLabel(utcMs(before.endUtc) + lagMs);
  if (own.readyUtc !== null && own.untilUtc !== null) {
    const endByUtc = open !== undefined && open.toUtc < own.untilUtc ? open.toUtc : own.untilUtc;
    return { fromUtc: own.readyUtc, endByUtc, beginByUtc };
  }
  if (before === null || beginByUtc === null) return null;
  return { fromUtc: before.endUtc, endByUtc: open?.toUtc ?? null, beginByUtc };
}

/** What a work's row says of its window, and of what is left of it after the work. */
function windowTexts(
  job: CrewJobAnswer,
  { fromUtc, endByUtc, beginByUtc }: Room,
  manner: Manner,
): Pick<PlanRow, "window" | "spare"> {
  const toEndMs = endByUtc === null ? Number.POSITIVE_INFINITY : utcMs(endByUtc) - utcMs(job.endUtc);
  const toBeginMs = beginByUtc === null ? Number.POSITIVE_INFINITY : utcMs(beginByUtc) - utcMs(job.startUtc);
  const earlyMs = utcMs(fromUtc) - utcMs(job.startUtc);
  const spare = spareText(Math.min(toEndMs, toBeginMs), earlyMs, manner);
  // Which of the two comes first.
  return toBeginMs < toEndMs
    ? {
        window: `${visitSpan({ startUtc: fromUtc, endUtc: beginByUtc ?? fromUtc }, manner)}, to begin`,
        spare,
      }
    : { window: visitSpan({ startUtc: fromUtc, endUtc: endByUtc ?? fromUtc }, manner), spare };
}

/** "2 h", "nothing", and of a work that comes past its window or begins before it, by how much. */
function spareText(spareMs: number, earlyMs: number, manner: Manner): string {
  const hours = (ms: number) =>
    ms < HOUR_MS ? `${Math.round(ms / MINUTE_MS)} min` : hoursText(ms / HOUR_MS, manner);
  if (spareMs < 0) return `${hours(-spareMs)} past it`;
  if (earlyMs > 0) return `${hours(earlyMs)} before it`;
  return spareMs === 0 ? "nothing" : hours(spareMs);
}

/**
 * The works of the plan in the order of their hours.
 *
 * @param faults what speaks against works as they stand; what is to be known of feed is the plan's own
 */
export function planRows(
  plan: CrewPlanAnswer,
  faults: readonly Caution[],
  manner: Manner,
): readonly PlanRow[] {
  // Moved by hand they still stand where they were planned.
  const inOrder = plan.jobs.toSorted((a, b) => utcMs(a.startUtc) - utcMs(b.startUtc));
  return inOrder.map((job) => {
    const { names } = plan;
    const replay = plan.replay.find(({ fieldId }) => fieldId === job.fieldId);
    const room = roomOf(plan, job);
    const own = [...faults, ...plan.cautions.filter(isOfFeed)].filter(
      ({ fieldId, op }) => fieldId === job.fieldId && op === job.op,
    );
    const isRisk = isGather(job.op) && replay?.atRisk === true;
    const cautions = own.map(
      (fault) => waitText(fault, manner) ?? SHORT[fault.code] ?? faultWords(fault, manner).replace(/\.$/, ""),
    );
    return {
      key: jobKey(job),
      field: names.fields[job.fieldId] ?? job.fieldId,
      work: OP_LABELS[job.op],
      machine: names.machines[job.machineId] ?? job.machineId,
      who: names.people[job.personId] ?? job.personId,
      starts: visitTime(job.startUtc, manner),
      ends: visitTime(job.endUtc, manner),
      ...(room === null ? { window: NONE, spare: NONE } : windowTexts(job, room, manner)),
      chance: replay?.chanceDry == null ? NONE : wholePercent(replay.chanceDry),
      caution: [...new Set([...cautions, ...(isRisk ? ["at risk"] : [])])].join("; ") || NONE,
    };
  });
}
