import type {
  CrewJobAnswer,
  CrewOp,
  CrewPersonRequest,
  CrewPlanAnswer,
  OffSpan,
} from "../../model/crew/index.ts";
import { isGather } from "../../model/crew/keys.ts";
import { DAY_MS, HOUR_MS, localDayKey, localParts, startOfLocalDay } from "../../model/weather/clock.ts";
import type { WeatherSeries } from "../../model/weather/index.ts";
import { nightSpans, type Scale, type Span } from "../board/calendar.ts";
import { farmDays, hourTickText, shortDayDateText, utcMs } from "../format/farm-time.ts";
import { type CrewRainBar, crewRain } from "./crew-rain.ts";
import { crewScale } from "./crew-scale.ts";
import { NO_LONGER } from "./gone.ts";
import { isWith } from "./is-with.ts";
import { LEFT_WORDS, leftState } from "./left-words.ts";
import { type PeopleRow, peopleRow } from "./people-row.ts";
import { shortNames } from "./short-names.ts";

export interface CrewBlock extends Span {
  readonly job: CrewJobAnswer;
  /** As much of the work's or the field's name as its width has room for. */
  readonly label: string;
  /** Where works of a row overlap they stand one under the other: the how-manieth of how many. */
  readonly lane: number;
  readonly lanes: number;
  /** Where a thumb still means this block: wider than it, no further than halfway to its neighbours. */
  readonly hit: Span;
  /** It takes the crop off the field. */
  readonly home: boolean;
  /** Its parts outside the window that the planned mowing opens for it. */
  readonly outside: readonly Span[];
}

export interface CrewRow {
  readonly id: string;
  readonly name: string;
  readonly y: number;
  readonly heightPx: number;
  /** Weather, ground and light allow it after some mowing. */
  readonly open: readonly Span[];
  /** The window that the planned mowing opens for the work that takes the crop. */
  readonly window: Span | null;
  readonly blocks: readonly CrewBlock[];
  /** What is said over a field that is not brought in; null where it is, and for a machine. */
  readonly left: string | null;
  /** When a machine is broken or away. */
  readonly away: readonly (Span & { readonly label: string })[];
  /** A machine of a plan given out that is not in the list any more. */
  readonly gone: boolean;
}

/** What the chart shows beside the plan's answer. */
export interface ChartFacts {
  /** When each machine is broken or away. */
  readonly away?: Readonly<Record<string, readonly OffSpan[] | undefined>>;
  /** Machines that are not in the list any more. */
  readonly gone?: ReadonlySet<string>;
  readonly hour12?: boolean;
  readonly people?: readonly CrewPersonRequest[];
}

export interface CrewChart {
  readonly scale: Scale;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly days: readonly (Span & { readonly label: string })[];
  /** Hours of the day as fine lines; the label is null where it would crowd the next. */
  readonly hours: readonly { readonly x: number; readonly label: string | null }[];
  readonly nights: readonly Span[];
  readonly rain: readonly CrewRainBar[];
  readonly fields: readonly CrewRow[];
  readonly machines: readonly CrewRow[];
  readonly machinesY: number;
  readonly people: PeopleRow;
  /** Where the plan's now lies; null before the first shown hour. */
  readonly nowX: number | null;
}

export const HEAD_PX = 70;
/** From here the rain hangs down. */
export const RAIN_Y_PX = 42;
const RAIN_PX = 24;
const FIELD_PX = { wide: 46, narrow: 64 };
const MACHINE_PX = { wide: 34, narrow: 44 };
const SEAM_PX = 30;
/** Two steps of text high: how many have work is written over the bars. */
const PEOPLE_PX = 58;
const LETTER_PX = { usual: 7.6, wide: 10.5 };
/** A day never gets narrower: an hour of work must be seen and hit, with a thumb where the picture is narrow. */
const LEAST_DAY_PX = { wide: 190, narrow: 240 };
const NARROW_PX = 480;
/** Width that a thumb can hit. */
const HIT_PX = 44;
const MOST_DAYS = 10;
/** Local hours that are drawn, and whether they are named. */
const HOURS: ReadonlyMap<number, boolean> = new Map([
  [9, true],
  [12, false],
  [15, true],
  [18, false],
]);

export const OP_LABELS: Readonly<Record<CrewOp, string>> = {
  mow: "Mow",
  ted: "Ted",
  rake: "Rake",
  bale: "Bale",
  chop: "Chop",
  wrap: "Wrap",
  haul: "Haul",
};

function textPx(text: string): number {
  return [...text].reduce((sum, letter) => sum + LETTER_PX[/[mw]/i.test(letter) ? "wide" : "usual"], 0);
}

/** The whole text where it fits, else its first word if that is no other's, else what is short for it. */
export function fitted(text: string, roomPx: number, short = text.slice(0, 1)): string {
  const fits = (some: string) => textPx(some) <= roomPx - 4;
  if (fits(text)) return text;
  const word = text.split(" ")[0] ?? text;
  return fits(word) && word.startsWith(short) ? word : short;
}

/** Blocks that overlap, side by side in lanes: dragged onto another, a work stays in sight. */
export function inLanes<T extends Span>(blocks: readonly T[]): (T & { lane: number; lanes: number })[] {
  const placed = blocks.map((block) => ({ ...block, lane: 0, lanes: 1 }));
  // A group is what hangs together by overlaps; all of a group share its number of lanes.
  let group: typeof placed = [];
  let groupEnd = Number.NEGATIVE_INFINITY;
  const close = () => {
    const lanes = Math.max(1, ...group.map(({ lane }) => lane + 1));
    for (const block of group) block.lanes = lanes;
    group = [];
  };
  for (const block of [...placed].sort((a, b) => a.x0 - b.x0 || a.x1 - b.x1)) {
    if (block.x0 >= groupEnd - 0.5) close();
    const busy = new Set(group.filter(({ x1 }) => x1 > block.x0 + 0.5).map(({ lane }) => lane));
    while (busy.has(block.lane)) block.lane += 1;
    group.push(block);
    groupEnd = group.length === 1 ? block.x1 : Math.max(groupEnd, block.x1);
  }
  close();
  // In the order they came in: a block that is being dragged keeps its place in the drawing, and with it the pointer.
  return placed;
}

/** Each block with the place where a press means it: a thumb's width where there is room. */
export function withHits<T extends Span>(blocks: readonly T[]): (T & { readonly hit: Span })[] {
  return blocks.map((block) => {
    const more = Math.max(0, (HIT_PX - (block.x1 - block.x0)) / 2);
    const before = blocks.filter(({ x1 }) => x1 <= block.x0 + 0.5).map(({ x1 }) => (x1 + block.x0) / 2);
    const after = blocks.filter(({ x0 }) => x0 >= block.x1 - 0.5).map(({ x0 }) => (x0 + block.x1) / 2);
    return {
      ...block,
      hit: { x0: Math.max(block.x0 - more, ...before), x1: Math.min(block.x1 + more, ...after) },
    };
  });
}

/** First and last day that hold work, or the first three days of the plan; where nothing is served all that explain why, as far as it looks. */
function chartDays(plan: CrewPlanAnswer, jobs: readonly CrewJobAnswer[]) {
  const zone = plan.timeZone;
  const starts = jobs.map(({ startUtc }) => utcMs(startUtc));
  const ends = jobs.map(({ endUtc }) => utcMs(endUtc));
  const nowMs = utcMs(plan.nowUtc);
  const firstMs = Math.min(nowMs, ...starts);
  const isUnserved = plan.left.length === Object.keys(plan.names.fields).length;
  const lastMs = Math.max(firstMs + 2 * DAY_MS, ...ends, ...(isUnserved ? [utcMs(plan.untilUtc) - 1] : []));
  const fromMs = startOfLocalDay(zone, localDayKey(firstMs, zone));
  const days = farmDays(fromMs, lastMs, zone).slice(0, MOST_DAYS);
  const last = days.at(-1);
  const lastKey = last?.dayKey ?? localDayKey(lastMs, zone);
  // 36 h after a day's first moment lies in the next day even when the clock changes.
  const next = startOfLocalDay(zone, localDayKey(startOfLocalDay(zone, lastKey) + 1.5 * DAY_MS, zone));
  return { fromMs, toMs: next };
}

/** Fields above, machines below, over one calendar. `jobs` are the plan's own or as somebody has moved them. */
export function toCrewChart(
  plan: CrewPlanAnswer,
  jobs: readonly CrewJobAnswer[],
  series: WeatherSeries,
  widthPx: number,
  { away = {}, gone = new Set(), hour12 = false, people = [] }: ChartFacts = {},
): CrewChart {
  const zone = plan.timeZone;
  const { fromMs, toMs } = chartDays(plan, jobs);
  const days = farmDays(fromMs, toMs, zone);
  const size = widthPx < NARROW_PX ? "narrow" : "wide";
  const leastDayPx = LEAST_DAY_PX[size];
  const machinePx = MACHINE_PX[size];
  const fieldPx = FIELD_PX[size];
  const wide = Math.max(widthPx, days.length * leastDayPx);
  const scale = crewScale(fromMs, toMs, zone, 0, wide);
  const span = (from: string, to: string): Span => ({ x0: scale.x(from), x1: scale.x(to) });
  const seen = ({ x0, x1 }: Span) => x1 - x0 > 0.5;
  const shorts = shortNames(plan.names.fields);
  const outsideOf = (job: CrewJobAnswer): Span[] => {
    const own = plan.windows.find(({ fieldId, op }) => fieldId === job.fieldId && op === job.op);
    if (!isGather(job.op) || own?.readyUtc == null || own.untilUtc === null) return [];
    const [at, open] = [span(job.startUtc, job.endUtc), span(own.readyUtc, own.untilUtc)];
    return [
      { x0: at.x0, x1: Math.min(at.x1, open.x0) },
      { x0: Math.max(at.x0, open.x1), x1: at.x1 },
    ].filter(seen);
  };
  const blocks = (
    own: readonly CrewJobAnswer[],
    text: (job: CrewJobAnswer) => string,
    short: (job: CrewJobAnswer) => string | undefined = () => undefined,
  ): CrewBlock[] =>
    withHits(
      inLanes(
        own.map((job) => {
          const at = span(job.startUtc, job.endUtc);
          const label = fitted(text(job), at.x1 - at.x0, short(job));
          return { ...at, job, label, home: isGather(job.op), outside: outsideOf(job) };
        }),
      ),
    );
  const fields = Object.entries(plan.names.fields).map(([id, name], i): CrewRow => {
    const left = leftState(plan, id);
    const gather = plan.windows.find(({ fieldId, op }) => fieldId === id && (op === "bale" || op === "chop"));
    return {
      id,
      name,
      y: HEAD_PX + i * fieldPx,
      heightPx: fieldPx,
      open: (gather?.openUtc ?? []).map(({ fromUtc, toUtc }) => span(fromUtc, toUtc)).filter(seen),
      window:
        gather?.readyUtc != null && gather.untilUtc !== null ? span(gather.readyUtc, gather.untilUtc) : null,
      blocks: blocks(
        jobs.filter(({ fieldId }) => fieldId === id),
        ({ op }) => OP_LABELS[op],
      ),
      left: left === null ? null : LEFT_WORDS[left],
      away: [],
      gone: false,
    };
  });
  const machinesY = HEAD_PX + fields.length * fieldPx;
  const nowMs = utcMs(plan.nowUtc);
  const rows = Object.entries(plan.names.machines).filter(
    ([id]) => !gone.has(id) || jobs.some(({ machineId }) => machineId === id),
  );
  const machines = rows.map(
    ([id, name], i): CrewRow => ({
      id,
      name: gone.has(id) ? name.replace(` (${NO_LONGER})`, "") : name,
      y: machinesY + SEAM_PX + i * machinePx,
      heightPx: machinePx,
      open: [],
      window: null,
      blocks: blocks(
        jobs.filter((job) => isWith(plan, job, id)),
        ({ fieldId }) => plan.names.fields[fieldId] ?? fieldId,
        ({ fieldId }) => shorts[fieldId],
      ),
      left: null,
      away: (away[id] ?? [])
        .map(({ fromUtc, toUtc }) => span(fromUtc, toUtc))
        .filter(seen)
        .map((at) => ({ ...at, label: fitted("Broken or away", at.x1 - at.x0) })),
      gone: gone.has(id),
    }),
  );
  const peopleY = machinesY + SEAM_PX + machines.length * machinePx + SEAM_PX;
  return {
    scale,
    widthPx: wide,
    heightPx: peopleY + PEOPLE_PX,
    people: { y: peopleY, heightPx: PEOPLE_PX, ...peopleRow(people, jobs, zone, scale) },
    days: days.map(({ startMs, endMs }) => ({
      x0: scale.x(startMs),
      x1: scale.x(endMs),
      label: shortDayDateText(startMs, { zone }),
    })),
    hours: days.flatMap(({ startMs, endMs }) =>
      Array.from({ length: Math.ceil((endMs - startMs) / HOUR_MS) }, (_, h) => startMs + h * HOUR_MS).flatMap(
        (ms) => {
          const named = HOURS.get(localParts(ms, zone).hour);
          if (named === undefined) return [];
          return [{ x: scale.x(ms), label: named ? hourTickText(ms, { zone, hour12 }) : null }];
        },
      ),
    ),
    nights: nightSpans(series, scale, zone),
    rain: crewRain(series, days, scale, RAIN_PX),
    fields,
    machines,
    machinesY,
    nowX: nowMs > fromMs && nowMs < toMs ? scale.x(nowMs) : null,
  };
}
