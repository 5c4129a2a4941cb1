import type { CrewJobAnswer, CrewOp, CrewPlanAnswer } from "../../model/crew/index.ts";
import { DAY_MS, localDayKey, startOfLocalDay } from "../../model/weather/clock.ts";
import type { WeatherSeries } from "../../model/weather/index.ts";
import { nightSpans, type RainBar, rainBars, type Scale, type Span } from "../board/calendar.ts";
import { farmDays, shortDayDateText, utcMs } from "../format/farm-time.ts";
import { crewScale } from "./crew-scale.ts";

export interface CrewBlock extends Span {
  readonly job: CrewJobAnswer;
  /** As much of the work's or the field's name as its width has room for. */
  readonly label: string;
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
  /** Why a field is left standing; null where it is not, and for a machine. */
  readonly left: string | null;
}

export interface CrewChart {
  readonly scale: Scale;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly days: readonly (Span & { readonly label: string })[];
  readonly nights: readonly Span[];
  readonly rain: readonly RainBar[];
  readonly fields: readonly CrewRow[];
  readonly machines: readonly CrewRow[];
  readonly machinesY: number;
}

export const HEAD_PX = 52;
const RAIN_PX = 24;
const FIELD_PX = 46;
const MACHINE_PX = 34;
const SEAM_PX = 30;
const LETTER_PX = 7.6;
/** A day never gets narrower: an hour of work must be seen and hit. */
const LEAST_DAY_PX = 190;
const MOST_DAYS = 10;

export const OP_LABELS: Readonly<Record<CrewOp, string>> = {
  mow: "Mow",
  ted: "Ted",
  rake: "Rake",
  bale: "Bale",
  chop: "Chop",
  wrap: "Wrap",
  haul: "Haul",
};

/** The whole text where it fits, else its first word, else its first letter. */
export function fitted(text: string, roomPx: number): string {
  const room = Math.floor((roomPx - 4) / LETTER_PX);
  if (text.length <= room) return text;
  const word = text.split(" ")[0] ?? text;
  return word.length <= room ? word : text.slice(0, 1);
}

/** First and last day that hold work, or the first three days of the plan; never past the weather. */
export function chartDays(plan: CrewPlanAnswer, jobs: readonly CrewJobAnswer[]) {
  const zone = plan.timeZone;
  const starts = jobs.map(({ startUtc }) => utcMs(startUtc));
  const ends = jobs.map(({ endUtc }) => utcMs(endUtc));
  const nowMs = utcMs(plan.nowUtc);
  const firstMs = Math.min(nowMs, ...starts);
  const lastMs = Math.max(firstMs + 2 * DAY_MS, ...ends);
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
): CrewChart {
  const zone = plan.timeZone;
  const { fromMs, toMs } = chartDays(plan, jobs);
  const days = farmDays(fromMs, toMs, zone);
  const wide = Math.max(widthPx, days.length * LEAST_DAY_PX);
  const scale = crewScale(fromMs, toMs, zone, 0, wide);
  const span = (from: string, to: string): Span => ({ x0: scale.x(from), x1: scale.x(to) });
  const seen = ({ x0, x1 }: Span) => x1 - x0 > 0.5;
  const block = (job: CrewJobAnswer, text: string): CrewBlock => {
    const at = span(job.startUtc, job.endUtc);
    return { ...at, job, label: fitted(text, at.x1 - at.x0) };
  };
  const fields = Object.entries(plan.names.fields).map(([id, name], i): CrewRow => {
    const gather = plan.windows.find(({ fieldId, op }) => fieldId === id && (op === "bale" || op === "chop"));
    return {
      id,
      name,
      y: HEAD_PX + i * FIELD_PX,
      heightPx: FIELD_PX,
      open: (gather?.openUtc ?? []).map(({ fromUtc, toUtc }) => span(fromUtc, toUtc)).filter(seen),
      window:
        gather?.readyUtc != null && gather.untilUtc !== null ? span(gather.readyUtc, gather.untilUtc) : null,
      blocks: jobs.filter(({ fieldId }) => fieldId === id).map((job) => block(job, OP_LABELS[job.op])),
      left: plan.left.find(({ fieldId }) => fieldId === id)?.why ?? null,
    };
  });
  const machinesY = HEAD_PX + fields.length * FIELD_PX;
  const machines = Object.entries(plan.names.machines).map(
    ([id, name], i): CrewRow => ({
      id,
      name,
      y: machinesY + SEAM_PX + i * MACHINE_PX,
      heightPx: MACHINE_PX,
      open: [],
      window: null,
      blocks: jobs
        .filter(({ machineId }) => machineId === id)
        .map((job) => block(job, plan.names.fields[job.fieldId] ?? job.fieldId)),
      left: null,
    }),
  );
  return {
    scale,
    widthPx: wide,
    heightPx: machinesY + SEAM_PX + machines.length * MACHINE_PX,
    days: days.map(({ startMs, endMs }) => ({
      x0: scale.x(startMs),
      x1: scale.x(endMs),
      label: shortDayDateText(startMs, { zone }),
    })),
    nights: nightSpans(series, scale, zone),
    rain: rainBars(series, days, scale, RAIN_PX),
    fields,
    machines,
    machinesY,
  };
}
