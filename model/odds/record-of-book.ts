import { HOUR_MS } from "../weather/clock.ts";
import { cameOf, isCourseOf, isGathered, type KeptCut, mownMs, WINDOW_EVENT } from "./came.ts";
import { bandsInOrder } from "./quantiles.ts";
import { LONGEST_LEAD_H } from "./record.ts";
import type { ChanceMetRequest, MoistureMetRequest, RecordRequest } from "./record-answer.ts";

/** What the record reads of an issued forecast that was kept. */
export interface KeptForecast {
  readonly fieldId?: string | null | undefined;
  readonly siteId?: string | null | undefined;
  readonly cutId?: string | null | undefined;
  readonly issuedUtc: string;
  /** The same for all that was told of one weather, with whatever entries; absent = told by its time of issue. */
  readonly weather?: string | undefined;
  readonly route?: string | null | undefined;
  readonly course?:
    | {
        readonly startUtc: readonly string[];
        readonly quantiles?:
          | Readonly<Record<"p10" | "p25" | "p50" | "p75" | "p90", readonly (number | null)[]>>
          | null
          | undefined;
        readonly membersWb?: readonly (readonly (number | null)[])[] | null | undefined;
      }
    | null
    | undefined;
  readonly chances?: readonly KeptChance[] | null | undefined;
}

/** A chance that was told, with what tells whether it came. */
export interface KeptChance {
  /** The event; whether a `WINDOW_EVENT` came is found here. */
  readonly what?: string | undefined;
  readonly route?: string | null | undefined;
  readonly fromUtc?: string | undefined;
  readonly toUtc: string;
  readonly cutUtc?: string | null | undefined;
  readonly bandWb?: readonly [number, number] | null | undefined;
  readonly chance: number;
  /** As somebody said: then nothing is looked for. */
  readonly came?: boolean | null | undefined;
}

/** What it reads of a reading. A hand squeeze is an interval, no number to score by. */
export interface KeptReading {
  readonly fieldId?: string | null | undefined;
  readonly cutId?: string | null | undefined;
  /** Of a stored lot: no reading of a swath, whatever cut the lot came from. */
  readonly lotId?: string | null | undefined;
  readonly atUtc: string;
  readonly moistureWb?: number | null | undefined;
}

/** A column of hour ends at a moment, straight between them; null outside it or beside a missing hour. */
export function columnAt(column: readonly (number | null)[], startMs: number, atMs: number): number | null {
  const place = (atMs - startMs) / HOUR_MS - 1;
  if (!(place >= 0 && place <= column.length - 1)) return null;
  const i = Math.floor(place);
  const [before, after] = [column[i] ?? null, column[Math.min(column.length - 1, i + 1)] ?? null];
  return before === null || after === null ? null : before + (after - before) * (place - i);
}

function isOf(forecast: KeptForecast, reading: KeptReading): boolean {
  if (forecast.cutId) return forecast.cutId === reading.cutId;
  return Boolean(forecast.fieldId) && forecast.fieldId === reading.fieldId;
}

/** By the cuts of a book: whether a reading is of what lies on the field, neither of a lot nor taken once its cut was baled or chopped. */
function swathReadings(cuts: readonly KeptCut[]): (reading: KeptReading) => boolean {
  const byId: Cuts = new Map(cuts.map((cut) => [cut.id, cut]));
  const byField = new Map<string, KeptCut[]>();
  const mown = cuts.filter((cut) => Number.isFinite(mownMs(cut)));
  for (const cut of mown.toSorted((a, b) => mownMs(a) - mownMs(b)))
    if (cut.fieldId) byField.set(cut.fieldId, [...(byField.get(cut.fieldId) ?? []), cut]);
  /** The cut named, else the one that the field was mown for last. */
  const cutOf = ({ cutId, fieldId, atUtc }: KeptReading): KeptCut | undefined =>
    cutId ? byId.get(cutId) : byField.get(fieldId ?? "")?.findLast((cut) => mownMs(cut) <= Date.parse(atUtc));
  return (reading) => {
    const cut = cutOf(reading);
    return !reading.lotId && !(cut && isGathered(cut, reading.atUtc));
  };
}

function moistureMet(forecast: KeptForecast, reading: KeptReading): MoistureMetRequest[] {
  const { course, issuedUtc, route } = forecast;
  const { atUtc, moistureWb } = reading;
  const startMs = Date.parse(course?.startUtc[0] ?? "");
  const atMs = Date.parse(atUtc);
  if (!course || typeof moistureWb !== "number" || atMs < Date.parse(issuedUtc)) return [];
  const at = (column: readonly (number | null)[]) => columnAt(column, startMs, atMs);
  const common = { issuedUtc, atUtc, route, observedWb: moistureWb };
  const members = (course.membersWb ?? []).map(at).filter((wb) => wb !== null);
  if (members.length > 0) return [{ ...common, membersWb: members }];
  const { quantiles } = course;
  if (!quantiles) return [];
  const [p10, p25, p50, p75, p90] = [
    at(quantiles.p10),
    at(quantiles.p25),
    at(quantiles.p50),
    at(quantiles.p75),
    at(quantiles.p90),
  ];
  if (p10 === null || p25 === null || p50 === null || p75 === null || p90 === null) return [];
  return [{ ...common, bandsWb: { p10, p25, p50, p75, p90 } }];
}

/** What can be scored: no farther ahead than a record tells of, told quantiles in their order. */
function canBeScored({
  issuedUtc,
  atUtc,
  bandsWb,
}: MoistureMetRequest | (ChanceMetRequest & { bandsWb?: undefined })): boolean {
  const leadH = (Date.parse(atUtc) - Date.parse(issuedUtc)) / HOUR_MS;
  return leadH <= LONGEST_LEAD_H && (bandsWb === undefined || bandsInOrder(bandsWb));
}

/** A reading beside a course without odds, or beside hours that cannot be read: there is nothing to score it by. */
function isBesideBareCourse(forecast: KeptForecast, reading: KeptReading): boolean {
  const { course, issuedUtc } = forecast;
  if (!course || !isOf(forecast, reading) || typeof reading.moistureWb !== "number") return false;
  const [startMs, atMs] = [Date.parse(course.startUtc[0] ?? ""), Date.parse(reading.atUtc)];
  if (Number.isNaN(startMs)) return true;
  const within = atMs >= startMs + HOUR_MS && atMs <= startMs + course.startUtc.length * HOUR_MS;
  const bare = !course.quantiles && (course.membersWb ?? []).length === 0;
  return bare && within && atMs >= Date.parse(issuedUtc);
}

/** Said by somebody, or found from the cut and its readings; null where it is not known. */
function cameIn(forecast: KeptForecast, one: KeptChance, cuts: Cuts, readings: readonly KeptReading[]) {
  if (typeof one.came === "boolean") return one.came;
  const { cutId, issuedUtc } = forecast;
  const route = one.route ?? forecast.route;
  const { what, fromUtc } = one;
  if (what !== WINDOW_EVENT || !cutId || !route || fromUtc === undefined) return null;
  const own = readings.filter((reading) => reading.cutId === cutId);
  return cameOf({ ...one, route, issuedUtc, fromUtc }, cuts.get(cutId), own);
}

type Cuts = ReadonlyMap<string, KeptCut>;

/** What else the book knows. */
export interface KnownBeside {
  /** The zone of the farm that a forecast is of, where it is known. */
  readonly zoneOf?: (forecast: KeptForecast) => string | undefined;
  /** By which it is found whether told windows came. */
  readonly cuts?: readonly KeptCut[];
}

/** What the first forecast with each key told, and how often others told the same again. */
function firstTold<T extends { readonly forecast: KeptForecast; readonly key: string }>(all: readonly T[]) {
  const by = new Map<string, KeptForecast>();
  const first = all.filter(({ key, forecast }) => {
    const known = by.get(key) ?? forecast;
    by.set(key, known);
    return known === forecast;
  });
  return { first, again: all.length - first.length };
}

/** Of which cut (or field) and which weather something was told. */
function toldOf({ cutId, fieldId, weather, issuedUtc }: KeptForecast): string {
  return `${cutId ?? fieldId}|${weather ?? issuedUtc}`;
}

/**
 * The record's question from what was kept: each issued course with each later reading of its cut (or field), and chances
 * of which it is known whether the thing came (`cameOf`). What was told of a cut under one weather is one forecast: a reading
 * is scored by the first of it alone, `again` counts what other entries (a lever that was tried) would have added. What
 * cannot be scored, the course of a cut that was then mown on another day too, is counted as left out: one such does not
 * silence the rest. `notKnown` counts told chances of which nothing is known, `bare` readings beside courses without odds,
 * `gathered` readings of lots or of a cut that was taken up by then, which a course of the swath would else have met.
 *
 * @param timeZone of what has none of its own
 */
export function recordOfBook(
  timeZone: string,
  kept: readonly KeptForecast[],
  allReadings: readonly KeptReading[],
  { zoneOf = () => undefined, cuts = [] }: KnownBeside = {},
): RecordRequest & Readonly<Record<"leftOut" | "notKnown" | "bare" | "again" | "gathered", number>> {
  const forecasts = kept.toSorted((a, b) => Date.parse(a.issuedUtc) - Date.parse(b.issuedUtc));
  const cutOf: Cuts = new Map(cuts.map((cut) => [cut.id, cut]));
  const isOfSwath = swathReadings(cuts);
  const readings = allReadings.filter(isOfSwath);
  const allMet = forecasts.flatMap((forecast) =>
    readings.flatMap((reading, i) =>
      isOf(forecast, reading)
        ? moistureMet(forecast, reading).map((met) => ({
            key: `${toldOf(forecast)}|${i}`,
            forecast,
            met: { ...met, timeZone: zoneOf(forecast) },
          }))
        : [],
    ),
  );
  const { first: moisture, again: metAgain } = firstTold(allMet);
  const ofCut = moisture.flatMap(({ forecast: { cutId, course }, met }) => {
    const cut = cutOf.get(cutId ?? "");
    return cut && course && !isCourseOf(cut, course.startUtc[0] ?? "") ? [] : [met];
  });
  const allTold = forecasts.flatMap((forecast) =>
    (forecast.chances ?? []).map((one) => {
      const { what, route = forecast.route, toUtc } = one;
      // Of a route one window is told; of anything else its own end tells one from another.
      const key = `${toldOf(forecast)}|${what}|${route}|${what === WINDOW_EVENT ? "" : toUtc}`;
      return { key, forecast, one };
    }),
  );
  const { first: told, again: toldAgain } = firstTold(allTold);
  const chances = told.flatMap(({ forecast, one }): ChanceMetRequest[] => {
    const came = cameIn(forecast, one, cutOf, readings);
    if (came === null) return [];
    const { issuedUtc, route } = forecast;
    const { chance, toUtc: atUtc } = one;
    return [{ issuedUtc, atUtc, route: one.route ?? route, timeZone: zoneOf(forecast), chance, came }];
  });
  const scored = { moisture: ofCut.filter(canBeScored), chances: chances.filter(canBeScored) };
  const leftOut = moisture.length - scored.moisture.length + chances.length - scored.chances.length;
  const bare = readings.filter((reading) => forecasts.some((one) => isBesideBareCourse(one, reading))).length;
  const gathered = allReadings.filter(
    (reading) =>
      !isOfSwath(reading) &&
      forecasts.some((one) => isOf(one, reading) && moistureMet(one, reading).length > 0),
  ).length;
  return {
    timeZone,
    ...scored,
    leftOut,
    notKnown: told.length - chances.length,
    bare,
    gathered,
    again: metAgain + toldAgain,
  };
}
