import { HOUR_MS } from "../weather/clock.ts";
import { bandsInOrder } from "./quantiles.ts";
import { LONGEST_LEAD_H } from "./record.ts";
import type { ChanceMetRequest, MoistureMetRequest, RecordRequest } from "./record-answer.ts";

/** What the record reads of an issued forecast that was kept. */
export interface KeptForecast {
  readonly fieldId?: string | null | undefined;
  readonly siteId?: string | null | undefined;
  readonly cutId?: string | null | undefined;
  readonly issuedUtc: string;
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
  readonly chances?:
    | readonly {
        readonly toUtc: string;
        readonly route?: string | null | undefined;
        readonly chance: number;
        readonly came?: boolean | null | undefined;
      }[]
    | null
    | undefined;
}

/** What it reads of a reading. A hand squeeze is an interval, no number to score by. */
export interface KeptReading {
  readonly fieldId?: string | null | undefined;
  readonly cutId?: string | null | undefined;
  readonly atUtc: string;
  readonly moistureWb?: number | null | undefined;
}

/** A column of hour ends at a moment, straight between them; null outside it or beside a missing hour. */
function columnAt(column: readonly (number | null)[], startMs: number, atMs: number): number | null {
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

/**
 * The record's question from what was kept: each issued course with each later reading of its cut (or field), and chances
 * whose end is known. What cannot be scored is counted as left out: one such does not silence the rest.
 *
 * @param timeZone of what has none of its own
 * @param zoneOf the zone of the farm that a forecast is of, where it is known
 */
export function recordOfBook(
  timeZone: string,
  forecasts: readonly KeptForecast[],
  readings: readonly KeptReading[],
  zoneOf: (forecast: KeptForecast) => string | undefined = () => undefined,
): RecordRequest & { readonly leftOut: number } {
  const moisture = forecasts.flatMap((forecast) =>
    readings.flatMap((reading) =>
      isOf(forecast, reading)
        ? moistureMet(forecast, reading).map((met) => ({ ...met, timeZone: zoneOf(forecast) }))
        : [],
    ),
  );
  const chances = forecasts.flatMap((forecast) =>
    (forecast.chances ?? []).flatMap((one): ChanceMetRequest[] => {
      if (typeof one.came !== "boolean") return [];
      const { issuedUtc, route } = forecast;
      const { chance, came, toUtc: atUtc } = one;
      return [{ issuedUtc, atUtc, route: one.route ?? route, timeZone: zoneOf(forecast), chance, came }];
    }),
  );
  const scored = { moisture: moisture.filter(canBeScored), chances: chances.filter(canBeScored) };
  const leftOut = moisture.length - scored.moisture.length + chances.length - scored.chances.length;
  return { timeZone, ...scored, leftOut };
}
