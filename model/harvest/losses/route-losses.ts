import type { Conditioning, CropKey, OperationKind } from "../../drying/keys.ts";
import { HOUR_MS } from "../../weather/clock.ts";
import type { HourlyWeather } from "../../weather/hourly.ts";
import type { PackageKey, RouteKey, StoreKey } from "../keys.ts";
import { type FeedingKey, feedingLoss, type GrazingKey, grazingLoss, usualFeeding } from "./feeding-out.ts";
import { type BALING_LOSS, balingLoss, choppingLoss } from "./gathering.ts";
import type { LossStep } from "./loss-chain.ts";
import { mowingLoss } from "./mowing.ts";
import { passLosses } from "./passes.ts";
import { type RainHour, rainLoss } from "./rain-loss.ts";
import { type RespiringHour, respirationLoss } from "./respiration.ts";
import { type HayStoreKey, hayStorageLoss, siloStorageLoss, wrappedStorageLoss } from "./storage.ts";

/** Where the feed of a route lies and how it is given; all have defaults. */
export interface Keeping {
  readonly hayStore?: HayStoreKey | undefined;
  readonly silo?: StoreKey | undefined;
  readonly covered?: boolean | undefined;
  readonly densityKgM3?: number | undefined;
  readonly feeding?: FeedingKey | undefined;
  readonly grazing?: GrazingKey | undefined;
  /** True for a round baler with a fixed chamber. */
  readonly fixedChamber?: boolean | undefined;
}

/** Stated defaults of `Keeping`. */
export const USUAL_KEEPING = {
  hayStore: "inside",
  silo: "bunker",
  covered: true,
  grazing: "strips-of-days",
} as const satisfies Keeping;

/** What happened to one cut on one route between the standing crop and the machine that brings it in. */
export interface CutHistory {
  readonly crop: CropKey;
  readonly conditioning: Conditioning;
  /** Dry matter of the standing crop, t/ha: a rake drops a larger share of a thin crop. Absent = the curve's own. */
  readonly yieldTHa?: number | undefined;
  readonly passes: readonly { readonly kind: OperationKind; readonly moistureWb: number }[];
  /** From the mower to the machine. */
  readonly breathed: readonly RespiringHour[];
  readonly rained: readonly RainHour[];
  /** Moisture as the machine takes it, wet basis. */
  readonly takenAtWb: number;
}

/** Every loss of a route from standing to fed out, in the order in which it happens. */
export function routeLosses(
  route: RouteKey,
  pack: PackageKey,
  history: CutHistory,
  keeping: Keeping = {},
): LossStep[] {
  const { crop, conditioning, takenAtWb } = history;
  const { hayStore, silo, covered, grazing } = { ...USUAL_KEEPING, ...defined(keeping) };
  const fed = feedingLoss(route, keeping.feeding ?? usualFeeding(route));
  const stored = siloStorageLoss({
    store: silo,
    moistureWb: takenAtWb,
    covered,
    densityKgM3: keeping.densityKgM3,
  });
  const onGround = [
    mowingLoss(crop, conditioning),
    respirationLoss(history.breathed),
    rainLoss(crop, conditioning, history.rained),
    ...passLosses(history.passes, crop, history.yieldTHa),
  ];
  const baler: keyof typeof BALING_LOSS =
    keeping.fixedChamber && pack === "round" ? "round-fixed-chamber" : pack;
  switch (route) {
    case "dry-hay":
      return [
        ...onGround,
        balingLoss(baler, crop, takenAtWb),
        hayStorageLoss(pack, hayStore, takenAtWb),
        fed,
      ];
    case "wrapped-bales":
      return [...onGround, balingLoss(baler, crop, takenAtWb), wrappedStorageLoss(), fed];
    case "wilted-chop":
      return [...onGround, choppingLoss(), stored, fed];
    case "direct-chop":
      return [choppingLoss(), stored, fed];
    case "green-chop":
      return [choppingLoss(), fed];
    case "grazing":
      return [grazingLoss(grazing)];
  }
}

/** The keys that have a value: an absent one must not hide its default. */
function defined(keeping: Keeping): { [K in keyof typeof USUAL_KEEPING]?: Exclude<Keeping[K], undefined> } {
  return Object.fromEntries(Object.entries(keeping).filter(([, value]) => value !== undefined));
}

/** What is read of a course: tissue moisture at the end of each hour from `startUtcMs` on. */
export interface LyingCourse {
  readonly startUtcMs: number;
  readonly cutUtcMs: number;
  readonly count: number;
  readonly moistureWb: ArrayLike<number>;
}

/**
 * The hours that breathe and the rain that falls between the cut and `untilMs`, each with the moisture at which it
 * finds the crop. Air temperature stands for that of the swath, which the course does not keep: by day a swath in the sun
 * is warmer, and breathes a little more than this. Rain leaches a crop as the driest that it has been since the cut: cells
 * that have dried out do not close again (assumed).
 */
export function lyingHours(
  course: LyingCourse,
  weather: HourlyWeather,
  startWb: number,
  untilMs: number,
): { readonly breathed: RespiringHour[]; readonly rained: RainHour[] } {
  const breathed: RespiringHour[] = [];
  const rained: RainHour[] = [];
  let driestWb = startWb;
  const count = Math.min(course.count, Math.ceil((untilMs - course.startUtcMs) / HOUR_MS));
  for (let i = 0; i < count; i++) {
    const fromMs = course.startUtcMs + i * HOUR_MS;
    const hours = (Math.min(untilMs, fromMs + HOUR_MS) - Math.max(course.cutUtcMs, fromMs)) / HOUR_MS;
    const at = Math.round((fromMs - weather.startUtcMs) / HOUR_MS);
    const swathTempC = weather.airTempC[at];
    const rainMm = weather.rainMm[at];
    if (!(hours > 0) || swathTempC === undefined || rainMm === undefined) continue;
    const before = i === 0 ? startWb : (course.moistureWb[i - 1] as number);
    const moistureWb = (before + (course.moistureWb[i] as number)) / 2;
    driestWb = Math.min(driestWb, before);
    breathed.push({ swathTempC, moistureWb, hours });
    if (rainMm > 0) rained.push({ rainMm: rainMm * hours, moistureWb: driestWb });
  }
  return { breathed, rained };
}
