import { ODDS_LIMITS } from "../drying/limits.ts";
import { ROUTES } from "../harvest/keys.ts";
import { type Issue, limitIssue, type Outcome } from "../limits.ts";
import { HOUR_MS, isKnownTimeZone, localDayKey } from "../weather/clock.ts";
import { LEAST_DAYS } from "./confidence.ts";
import { bandsInOrder, type Quantiles } from "./quantiles.ts";
import {
  type ChanceScores,
  chanceRecord,
  LONGEST_LEAD_H,
  type MoistureScores,
  moistureRecord,
  perfectCover80,
} from "./record.ts";

/** An issued forecast of moisture and the reading that it met. */
export interface MoistureMetRequest {
  readonly issuedUtc: string;
  readonly atUtc: string;
  readonly route?: string | null | undefined;
  /** Zone of the farm that it is of; absent = the record's. */
  readonly timeZone?: string | undefined;
  /** Moistures of the draws at that time as issued, or the quantiles that were told. */
  readonly membersWb?: readonly number[] | undefined;
  readonly bandsWb?: Quantiles | undefined;
  readonly observedWb: number;
}

/** A chance that was told, and whether it came. */
export interface ChanceMetRequest {
  readonly issuedUtc: string;
  readonly atUtc: string;
  readonly route?: string | null | undefined;
  /** Zone of the farm that it is of; absent = the record's. */
  readonly timeZone?: string | undefined;
  readonly chance: number;
  readonly came: boolean;
}

export interface RecordRequest {
  /** The farm's zone: scores are counted by its days. */
  readonly timeZone: string;
  readonly moisture?: readonly MoistureMetRequest[] | undefined;
  readonly chances?: readonly ChanceMetRequest[] | undefined;
  readonly seed?: number | undefined;
}

export interface RecordAnswer {
  readonly counts: { readonly moisture: number; readonly chances: number; readonly days: number };
  /** By route and lead time; null route = none was named. */
  readonly moisture: readonly MoistureScores[];
  readonly chances: readonly ChanceScores[];
  /** What is to be said beside the numbers. */
  readonly notes: readonly string[];
}

const CHANCE_LIMIT = { min: 0, max: 1, unit: "(0-1)" };

function zoneIssue(path: string, zone: string): Issue {
  const message = `${path}: got "${zone}", must be a zone as America/Chicago`;
  return { path, code: "unknown-zone", message };
}

type MetCommon = Pick<MoistureMetRequest, "issuedUtc" | "atUtc" | "route" | "timeZone">;

function checkMet(path: string, { issuedUtc, atUtc, route, timeZone }: MetCommon): Issue[] {
  const issues: Issue[] = [];
  if (route != null && !(ROUTES as readonly string[]).includes(route)) {
    const message = `${path}.route: got ${JSON.stringify(route)}, must be one of ${ROUTES.join(", ")}`;
    issues.push({ path: `${path}.route`, code: "unknown-value", message });
  }
  if (timeZone !== undefined && !isKnownTimeZone(timeZone))
    issues.push(zoneIssue(`${path}.timeZone`, timeZone));
  const leadH = (Date.parse(atUtc) - Date.parse(issuedUtc)) / HOUR_MS;
  if (!(leadH >= 0)) {
    const message = `${path}.atUtc: got ${atUtc}, must not lie before ${path}.issuedUtc (${issuedUtc})`;
    issues.push({ path: `${path}.atUtc`, code: "out-of-order", message });
  } else if (leadH > LONGEST_LEAD_H) {
    const message = `${path}.atUtc: got ${atUtc}, ${Math.round(leadH)} h after ${path}.issuedUtc (${issuedUtc}), must be at most ${LONGEST_LEAD_H} h`;
    issues.push({ path: `${path}.atUtc`, code: "out-of-range", message });
  }
  return issues;
}

/** Told quantiles stand in their order, or they are none. */
function bandsIssues(path: string, bands: Quantiles | undefined): Issue[] {
  if (bands === undefined || bandsInOrder(bands)) return [];
  const { p10, p25, p50, p75, p90 } = bands;
  const message = `${path}: got ${[p10, p25, p50, p75, p90].join(", ")}, must not fall from p10 to p90`;
  return [{ path, code: "out-of-order", message }];
}

function checkRecord({ timeZone, moisture = [], chances = [] }: RecordRequest): Issue[] {
  const zone: Issue[] = isKnownTimeZone(timeZone) ? [] : [zoneIssue("timeZone", timeZone)];
  const wet = moisture.flatMap((met, i) => {
    const path = `moisture[${i}]`;
    const numbers = [
      ["observedWb", met.observedWb] as const,
      ...(met.membersWb ?? []).map((wb, k) => [`membersWb[${k}]`, wb] as const),
      ...Object.entries(met.bandsWb ?? {}).map(([name, wb]) => [`bandsWb.${name}`, wb as number] as const),
    ];
    const outside = numbers.flatMap(
      ([name, wb]) => limitIssue(`${path}.${name}`, wb, ODDS_LIMITS.shareWb) ?? [],
    );
    const one = (met.membersWb?.length ?? 0) > 0 || met.bandsWb !== undefined;
    const neither: Issue[] = one
      ? []
      : [{ path, code: "one-of", message: `${path}: must have membersWb or bandsWb` }];
    return [...checkMet(path, met), ...neither, ...outside, ...bandsIssues(`${path}.bandsWb`, met.bandsWb)];
  });
  const told = chances.flatMap((met, i) => {
    const path = `chances[${i}]`;
    return [...checkMet(path, met), ...[limitIssue(`${path}.chance`, met.chance, CHANCE_LIMIT) ?? []].flat()];
  });
  return [...zone, ...wet, ...told];
}

function pct(share: number): string {
  return `${Math.round(100 * share)} %`;
}

/** What every record says of its own limits. */
export const RECORD_NOTES: readonly string[] = [
  `Scores are counted by days, not by readings or hours; under ${LEAST_DAYS} days it is too few to say.`,
  `Of a perfect forecast ${pct(perfectCover80(51))} of readings lie in the 10-90 % band of 51 members, ${pct(perfectCover80(200))} of 200 draws: fewer than 80 % is no fault by itself.`,
  "A reading has an error of its own: a band of the crop's moisture holds fewer readings than moistures.",
];

/** Said where a CRPS comes of told quantiles, as the device's record and the book's keep them. */
export const BANDS_CRPS_NOTE =
  "The CRPS is by the five told quantiles where no draws were kept: some 2 % high where the bands are right, up to 4 % low at their middle and high far outside them.";

/** Scores of every issued forecast that met a reading, and of every chance of which it is known whether it came. */
export function recordAnswer(request: RecordRequest): Outcome<RecordAnswer> {
  const issues = checkRecord(request);
  if (issues.length > 0) return { ok: false, issues };
  const { timeZone, moisture = [], chances = [], seed = 1 } = request;
  const placed = <T extends MetCommon>(met: T) => ({
    ...met,
    day: localDayKey(Date.parse(met.atUtc), met.timeZone ?? timeZone),
    leadH: (Date.parse(met.atUtc) - Date.parse(met.issuedUtc)) / HOUR_MS,
    route: met.route ?? null,
  });
  const byBands = moisture.some(({ membersWb = [] }) => membersWb.length === 0);
  const [wet, told] = [moisture.map(placed), chances.map(placed)];
  return {
    ok: true,
    value: {
      counts: {
        moisture: wet.length,
        chances: told.length,
        days: new Set([...wet, ...told].map(({ day }) => day)).size,
      },
      moisture: moistureRecord(wet, seed),
      chances: chanceRecord(told, seed),
      notes: byBands ? [...RECORD_NOTES, BANDS_CRPS_NOTE] : RECORD_NOTES,
    },
  };
}
