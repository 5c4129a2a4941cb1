import type { Operation } from "../drying/operations.ts";
import { lossTotal, lyingHours, routeLosses } from "../harvest/losses/index.ts";
import { defaultPackage, HARVEST_DEFAULTS } from "../harvest/routes.ts";
import { quantiles } from "../odds/quantiles.ts";
import { isGather, isPass } from "./keys.ts";
import type { CrewJob } from "./problem.ts";
import type { CrewFieldRequest } from "./request.ts";
import { hourAt, NOT_DRY_CAUSES, type NotDryCause, rainIn, whyNotDry } from "./taken-dry.ts";
import { routeBand } from "./windows/band.ts";
import type { MemberSwath } from "./windows/member-swath.ts";

/** What became of one field in one member. */
export interface MemberFate {
  /**
   * At the band's top or under it throughout, free of dew at both ends, and no rain while it was taken. Crop drier than the
   * band counts as dry: what it costs is shatter, in `lossPct`.
   */
  readonly dry: boolean;
  /** What keeps it from being dry; null where it is. */
  readonly notDry: NotDryCause | null;
  /** Of the standing crop, from the mower to feeding out, per cent; crop taken wet counts as lost by `WET_SHARE`. */
  readonly lossPct: number;
  readonly rainMm: number;
}

export interface FieldReplay {
  readonly fieldId: string;
  /** Share of the members in which the field is finished dry enough, without dew or rain; null where the weather is known. */
  readonly chanceDry: number | null;
  readonly expectedLossPct: number;
  readonly lossPct: { readonly p10: number; readonly p50: number; readonly p90: number } | null;
  readonly rainMm: number;
  readonly atRisk: boolean;
  /**
   * What keeps it from being finished dry, the most frequent first, each with its share of all members; absent where it is
   * dry in all of them.
   */
  readonly notDry?: readonly NotDryShare[] | undefined;
}

export interface NotDryShare {
  readonly cause: NotDryCause;
  /** 0-1 */
  readonly share: number;
}

/** Below this chance a field is named as at risk. */
export const RISK_BELOW = 0.7;

/**
 * Crop taken too wet, with dew on it, or in rain, keeps this share of what it would be worth. Assumed: it heats, moulds, or must be spread
 * again; what a wet baler does not shatter is no gain.
 */
export const WET_SHARE = 0.5;

/** Every member's fate of a field that is served by these jobs; null where nothing takes the crop, or no weather tells of it. */
export function fatesOf(
  field: CrewFieldRequest,
  members: readonly MemberSwath[],
  jobs: readonly CrewJob[],
): readonly MemberFate[] | null {
  const own = jobs.filter(({ fieldId }) => fieldId === field.id);
  const mow = own.find(({ op }) => op === "mow");
  const gather = own.find(({ op }) => isGather(op));
  if (mow === undefined || gather === undefined) return null;
  const cutUtcMs = (mow.startUtcMs + mow.endUtcMs) / 2;
  // Mown before its weather begins: nothing can be told of what became of it.
  if (members.some(({ weather }) => cutUtcMs < weather.startUtcMs)) return null;
  const takenMs = (gather.startUtcMs + gather.endUtcMs) / 2;
  const passes = passesOf(own);
  const { crop, conditioning } = field.swath;
  const pack = field.package ?? (field.route === "dry-hay" ? defaultPackage(crop) : "round");
  const silo = field.store ?? HARVEST_DEFAULTS.store.value;
  const [, topWb] = routeBand(field);
  const lastMs = Math.max(...own.map(({ endUtcMs }) => endUtcMs));
  return members.map((member) => {
    const course = member.course(cutUtcMs, passes, lastMs);
    const wbAt = (utcMs: number) => course.moistureWb[hourAt(course, utcMs)] as number;
    const { breathed, rained } = lyingHours(course, member.weather, member.swath.initialMoistureWb, takenMs);
    const steps = routeLosses(
      field.route,
      pack,
      {
        crop,
        conditioning,
        passes: passes.map(({ kind, atUtcMs }) => ({ kind, moistureWb: wbAt(atUtcMs) })),
        breathed,
        rained,
        takenAtWb: wbAt(takenMs),
      },
      { silo },
    );
    const taken = { fromUtcMs: gather.startUtcMs, toUtcMs: gather.endUtcMs };
    const notDry = whyNotDry(member, course, taken, topWb);
    const dry = notDry === null;
    return {
      dry,
      notDry,
      lossPct: 100 * (1 - lossTotal(steps).keptFraction * (dry ? 1 : WET_SHARE)),
      rainMm:
        rained.reduce((sum, { rainMm }) => sum + rainMm, 0) +
        rainIn(member, gather.startUtcMs, gather.endUtcMs),
    };
  });
}

/** Tedding and raking as the plan does them. */
export function passesOf(jobs: readonly CrewJob[]): readonly Operation[] {
  return jobs.flatMap(({ op, startUtcMs, endUtcMs }): Operation[] =>
    isPass(op) ? [{ kind: op, atUtcMs: (startUtcMs + endUtcMs) / 2, coveredFraction: null }] : [],
  );
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function notDryShares(fates: readonly MemberFate[]): NotDryShare[] {
  return NOT_DRY_CAUSES.map((cause) => ({
    cause,
    share: mean(fates.map(({ notDry }) => (notDry === cause ? 1 : 0))),
  }))
    .filter(({ share }) => share > 0)
    .sort((a, b) => b.share - a.share);
}

/** A field's fates told in one line. */
export function toldReplay(fieldId: string, fates: readonly MemberFate[], hasChance: boolean): FieldReplay {
  const losses = fates.map(({ lossPct }) => lossPct);
  const chance = mean(fates.map(({ dry }) => (dry ? 1 : 0)));
  const notDry = notDryShares(fates);
  const { p10, p50, p90 } = quantiles(losses);
  return {
    fieldId,
    chanceDry: hasChance ? chance : null,
    expectedLossPct: mean(losses),
    lossPct: hasChance ? { p10, p50, p90 } : null,
    rainMm: mean(fates.map(({ rainMm }) => rainMm)),
    atRisk: chance < RISK_BELOW,
    ...(notDry.length > 0 ? { notDry } : {}),
  };
}

/** What a plan is worth over the members: fields brought in dry, less what is lost on the way. */
export interface PlanWorth {
  readonly expected: number;
  readonly p10: number;
  readonly p90: number;
  /** Share of the members in which every field that is served is finished dry enough, without dew or rain. */
  readonly chanceAllDry: number;
}

/** Share of the crop's worth that is kept on average. */
export function meanKept(fates: readonly MemberFate[]): number {
  return fates.reduce((sum, { lossPct }) => sum + (1 - lossPct / 100), 0) / fates.length;
}

/** The plan's worth in every member, all fields of one member in the same weather. */
export function worthOverMembers(
  served: readonly { readonly worth: number; readonly fates: readonly MemberFate[] }[],
): PlanWorth {
  const count = Math.min(...served.map(({ fates }) => fates.length));
  if (served.length === 0) return { expected: 0, p10: 0, p90: 0, chanceAllDry: 0 };
  const worths: number[] = [];
  let allDry = 0;
  for (let k = 0; k < count; k++) {
    let sum = 0;
    let dry = true;
    for (const { worth, fates } of served) {
      const fate = fates[k] as MemberFate;
      sum += worth * (1 - fate.lossPct / 100);
      dry &&= fate.dry;
    }
    worths.push(sum);
    if (dry) allDry++;
  }
  const { p10, p90 } = quantiles(worths);
  return { expected: mean(worths), p10, p90, chanceAllDry: allDry / count };
}
