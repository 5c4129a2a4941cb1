import { median } from "simple-statistics";
import { DAY_MS, HOUR_MS, localOffsetMs } from "../clock.ts";
import type { Site } from "../series.ts";
import { dayOfYear, seasonalCorrectionH } from "../sun.ts";

/**
 * What the sun says of a file's clock. On clear days the middle of the radiation, in the file's own hours, stands at
 * true solar noon: how far it stands from there tells whether the file writes UTC, standard time or daylight-saving
 * time, and whether an hour is named by its start or its end.
 */

export const CLOCKS = ["utc", "standard", "daylight"] as const;
export type StationClock = (typeof CLOCKS)[number];
export const LABELS = ["start", "end", "middle", "instant"] as const;
export type StationLabel = (typeof LABELS)[number];

/** Middle of one clear day's radiation against solar noon at UTC, h in (-12, 12]. */
export interface Centroid {
  readonly wallDayMs: number;
  readonly diffH: number;
}

/** The sunniest days of each month that are looked at. */
const DAYS_A_MONTH = 6;
/** A day without so many hours of the clock is no whole day. */
const LEAST_HOURS = 20;
/** A day that brings less than this is no clear one, MJ/m2: winter days of high latitudes fall out. */
const LEAST_MJ_M2 = 5;

const wrapped = (hours: number) => hours - 24 * Math.round(hours / 24);

/** The middle of the sunniest days' radiation. Circular, so that a day that the file cuts at noon is no worse. */
export function centroidsOf(
  wallMs: ArrayLike<number>,
  solarWm2: ArrayLike<number | null>,
  stepH: number,
  longitude: number,
): Centroid[] {
  interface Day {
    count: number;
    sum: number;
    x: number;
    y: number;
  }
  const days = new Map<number, Day>();
  for (let i = 0; i < wallMs.length; i++) {
    const value = solarWm2[i];
    const ms = wallMs[i] as number;
    if (value === null || value === undefined) continue;
    const key = Math.floor(ms / DAY_MS);
    const day = days.get(key) ?? { count: 0, sum: 0, x: 0, y: 0 };
    const angle = ((ms % DAY_MS) / DAY_MS) * 2 * Math.PI;
    const sun = Math.max(0, value);
    day.count += 1;
    day.sum += sun;
    day.x += sun * Math.cos(angle);
    day.y += sun * Math.sin(angle);
    days.set(key, day);
  }
  const byMonth = new Map<string, (Centroid & { readonly sum: number })[]>();
  for (const [key, { count, sum, x, y }] of days) {
    if (count * stepH < LEAST_HOURS || sum * stepH * 0.0036 < LEAST_MJ_M2) continue;
    const wallDayMs = key * DAY_MS;
    const middleH = (Math.atan2(y, x) / (2 * Math.PI)) * 24;
    const noonUtcH = 12 - longitude / 15 - seasonalCorrectionH(dayOfYear(wallDayMs + DAY_MS / 2));
    const month = new Date(wallDayMs).toISOString().slice(0, 7);
    const list = byMonth.get(month) ?? [];
    list.push({ wallDayMs, diffH: wrapped(middleH - noonUtcH), sum });
    byMonth.set(month, list);
  }
  return [...byMonth.values()].flatMap((list) =>
    list
      .toSorted((a, b) => b.sum - a.sum)
      .slice(0, DAYS_A_MONTH)
      .map(({ wallDayMs, diffH }) => ({ wallDayMs, diffH })),
  );
}

/** The zone's two offsets in the year of a moment, h: standard time, and the most that it is set forward. */
export function offsetsOfYear(
  zone: string,
  ms: number,
): { readonly standardH: number; readonly daylightH: number } {
  const year = new Date(ms).getUTCFullYear();
  const all = [0, 6].map((month) => localOffsetMs(zone, Date.UTC(year, month, 1)) / HOUR_MS);
  return { standardH: Math.min(...all), daylightH: Math.max(...all) };
}

export interface ClockOfData {
  readonly clock: StationClock | null;
  readonly label: StationLabel | null;
  /** Middle of the radiation after solar noon under that clock, in the file's labels, h; null where it cannot be told. */
  readonly centroidH: number | null;
  /** The radiation's own averaging time, where it is shorter than the step, h. */
  readonly solarMeanH: number | null;
  /** In words, with its numbers. */
  readonly why: string;
}

/** Fewer clear days than this prove nothing. */
const LEAST_DAYS = 3;
/** A residual may stand this far from a convention's and still be it, h. */
const NEAR_H = 0.2;
const FARTHEST_H = 0.8;

const signed = (hours: number) => `${hours >= 0 ? "+" : "-"}${Math.abs(hours).toFixed(2)} h`;

/**
 * Clock and label from the radiation's middles.
 *
 * @param said what is known already: null where the data are to tell
 */
export function clockOfData(
  centroids: readonly Centroid[],
  site: Site,
  stepH: number,
  said: { readonly clock: StationClock | null; readonly label: StationLabel | null },
): ClockOfData {
  const none = { ...said, centroidH: null, solarMeanH: null };
  if (centroids.length < LEAST_DAYS)
    return { ...none, why: `only ${centroids.length} clear days: the sun cannot tell` };
  const { standardH, daylightH } = offsetsOfYear(site.timeZone, centroids[0]?.wallDayMs ?? 0);
  const isSummer = ({ wallDayMs }: Centroid) =>
    localOffsetMs(site.timeZone, wallDayMs + DAY_MS / 2) / HOUR_MS > standardH + 0.01;
  const residuals = (offsetOf: (day: Centroid) => number) =>
    centroids.map((day) => wrapped(day.diffH - offsetOf(day)));
  const under: Readonly<Record<StationClock, number[]>> = {
    utc: residuals(() => 0),
    standard: residuals(() => standardH),
    daylight: residuals((day) => (isSummer(day) ? daylightH : standardH)),
  };
  const spread = (of: readonly number[]) => median(of.map((value) => Math.abs(value - median([...of]))));
  const summer = centroids.filter(isSummer);
  const winter = centroids.filter((day) => !isSummer(day));
  const seasons = summer.length >= LEAST_DAYS && winter.length >= LEAST_DAYS && daylightH > standardH;
  const step =
    median(summer.length > 0 ? summer.map(({ diffH }) => wrapped(diffH - standardH)) : [0]) -
    median(winter.length > 0 ? winter.map(({ diffH }) => wrapped(diffH - standardH)) : [0]);
  const candidates = CLOCKS.filter((clock) => said.clock === null || clock === said.clock)
    .filter((clock) => clock !== "daylight" || daylightH > standardH || said.clock === "daylight")
    .filter(
      (clock) => !seasons || clock === "utc" || step > (daylightH - standardH) / 2 === (clock === "daylight"),
    )
    .map((clock) => ({ clock, middle: median([...under[clock]]), spread: spread(under[clock]) }))
    .filter(({ middle, spread: wide }) => Math.abs(middle) <= FARTHEST_H && wide <= NEAR_H)
    .toSorted((a, b) => nearest(a.middle, stepH).apart - nearest(b.middle, stepH).apart);
  const best = candidates[0];
  if (best === undefined) {
    const clock = said.clock ?? "standard";
    const middle = median([...under[clock]]);
    const verdict = said.clock === null ? "no clock fits" : "the sun does not fit this clock";
    return {
      ...none,
      centroidH: Math.round(middle * 100) / 100,
      why: `on ${centroids.length} clear days the radiation's middle stands ${signed(middle)} from solar noon by ${CLOCK_WORDS[clock]}: ${verdict}. Check clock, longitude and time zone`,
    };
  }
  const convention = nearest(best.middle, stepH);
  // Summer alone cannot part standard time named by an hour's end from summer time named by its start: the hours are the
  // same. Where the file goes on through the change of the clock they are not, and too few days there leave it open.
  const rival = candidates[1];
  const isTie =
    rival !== undefined && nearest(rival.middle, stepH).apart - convention.apart < NEAR_H && !seasons;
  if (isTie && summer.length > 0 && winter.length > 0)
    return {
      ...none,
      why: `the radiation's middle stands ${signed(best.middle)} from solar noon by ${CLOCK_WORDS[best.clock]} and ${signed(rival.middle)} by ${CLOCK_WORDS[rival.clock]}: both fit, with too few clear days beyond the change of the clock`,
    };
  const same = isTie ? `; read by ${CLOCK_WORDS[rival.clock]} the hours would be the same` : "";
  const sure = stepH < 0.6 || convention.apart <= NEAR_H;
  const label = said.label ?? (sure ? convention.label : null);
  const jump = seasons ? `; from winter to summer time it moves by ${signed(step)}` : "";
  return {
    clock: best.clock,
    label,
    centroidH: Math.round(best.middle * 100) / 100,
    solarMeanH: said.label === null && sure ? convention.meanH : null,
    why:
      `on ${centroids.length} clear days the radiation's middle stands ${signed(best.middle)} from solar noon by ${CLOCK_WORDS[best.clock]}${jump}` +
      (said.label === null && sure ? `: ${convention.words}${same}` : ""),
  };
}

export const CLOCK_WORDS: Readonly<Record<StationClock, string>> = {
  utc: "UTC",
  standard: "local standard time all year",
  daylight: "the local clock with daylight saving",
};

interface Convention {
  readonly label: StationLabel;
  readonly meanH: number | null;
  readonly words: string;
  readonly apart: number;
}

/** The convention whose middle is nearest. Hourly rows may carry the mean of the last quarter of an hour. */
function nearest(middleH: number, stepH: number): Convention {
  const half = stepH / 2;
  const all = [
    { label: "end" as const, meanH: null, at: half, words: "a row is named by the end of its time" },
    { label: "start" as const, meanH: null, at: -half, words: "a row is named by the start of its time" },
    { label: "instant" as const, meanH: null, at: 0, words: "a row is of its moment" },
    ...(stepH >= 0.9
      ? [
          {
            label: "instant" as const,
            meanH: 0.25,
            at: 0.125,
            words: "a row is of its moment, the radiation a mean of the 15 min before it",
          },
        ]
      : []),
  ];
  const [first] = all
    .map(({ at, ...rest }) => ({ ...rest, apart: Math.abs(middleH - at) }))
    .toSorted((a, b) => a.apart - b.apart);
  if (first === undefined) throw new RangeError("nearest: no convention");
  return first;
}
