import { coefficient } from "../../coefficient.ts";
import type { CropKey } from "../../drying/keys.ts";
import { PRUSSIC_WAIT_WEEKS, WAIT_WEEKS } from "../../feed/ensiling.ts";
import { PRUSSIC_CROPS } from "../hazards/prussic-crops.ts";
import {
  FROST_WAIT_DAYS,
  LEAST_HEIGHT_CM,
  NITRATE_ACCUMULATORS,
  NITRATE_CLOCK,
  REGROWTH_DAYS,
} from "../hazards/records.ts";
import type { RouteKey } from "../keys.ts";

export const SILO_GAS_WEEKS = coefficient(
  3,
  "weeks",
  "published",
  "keep out for 3 weeks: gas forms within hours, peaks on day 1-3, lasts 10-14 days to 3 weeks (Penn State)",
  [2, 3],
);
export const WAGON_HOURS = coefficient(
  4,
  "h",
  "from-memory",
  "discard green chop that is older or warm",
  [2, 6],
);
/** Wrapped bales commonly opened after 3-4 weeks: common practice, no source; 6 weeks compute. */
export const PRACTICE_FERMENT_WEEKS = [3, 4] as const;

export interface Wait {
  readonly what: "ferment" | "silo-gas" | "wagon" | "test" | "rain" | "frost" | "height";
  readonly amount: number | null;
  readonly unit: "weeks" | "h" | "d" | null;
  readonly text: string;
  readonly source: string;
}

const CM_PER_IN = 2.54;

/** What a crop that is taken fresh waits for before it: rain that restarts growth, frost, and the height of sorghum types. */
function freshWaits(route: "grazing" | "green-chop", crop: CropKey): Wait[] {
  const sorghum = PRUSSIC_CROPS.includes(crop);
  if (!sorghum && !NITRATE_ACCUMULATORS.includes(crop)) return [];
  const { longDays, middleDays } = NITRATE_CLOCK;
  const rain = sorghum ? Math.max(longDays.value, REGROWTH_DAYS.value) : longDays.value;
  const frost = FROST_WAIT_DAYS[route];
  const least = LEAST_HEIGHT_CM[crop];
  const what = sorghum ? "nitrate and prussic acid" : "nitrate";
  const waits: Wait[] = [
    {
      what: "rain",
      amount: rain,
      unit: "d",
      text: `After rain that ends a drought wait ${rain} days (sources: ${middleDays.value} to ${longDays.value}), then test for ${what}; each such rain starts the count again.`,
      source: sorghum ? `${longDays.source}; ${REGROWTH_DAYS.source}` : longDays.source,
    },
    {
      what: "frost",
      amount: frost.value,
      unit: "d",
      text: `After a frost take stock off and wait ${frost.value} days, then test; each frost and new shoots start the count again.`,
      source: `${frost.source}; a week after a killing frost (Nebraska, reported, Managing high-nitrate feed)`,
    },
  ];
  if (least === undefined) return waits;
  return [
    ...waits,
    {
      what: "height",
      amount: null,
      unit: null,
      text: `Not before the growth stands ${Math.ceil(least.value)} cm (${Math.round(least.value / CM_PER_IN)} in): young leaves and regrowth hold the most prussic acid.`,
      source: least.source,
    },
  ];
}

/** What a route waits for between the machine and the animal. */
export function routeWaits(route: RouteKey, crop: CropKey): Wait[] {
  const test: Wait = {
    what: "test",
    amount: null,
    unit: null,
    text:
      route === "dry-hay"
        ? "Core and test each lot before any animal gets it: hay keeps its nitrate."
        : "Test what is fed out, and again when the feed changes.",
    source: "drying and storage do not lower nitrate (Nebraska, Oklahoma State)",
  };
  if (route === "grazing") {
    const text = PRUSSIC_CROPS.includes(crop)
      ? "Test what the animals will eat for nitrate and for prussic acid (sample kept cool and undried) before they go in."
      : "Test what the animals will eat before they go in.";
    return [{ ...test, text }, ...freshWaits(route, crop)];
  }
  if (route === "dry-hay") return [test];
  if (route === "green-chop") {
    const { value, source } = WAGON_HOURS;
    const wagon: Wait = {
      what: "wagon",
      amount: value,
      unit: "h",
      text: `Feed it within ${value} hours; discard it if it is warm or was held overnight.`,
      source,
    };
    return [
      { ...test, text: "Laboratory result before the first load and after every rain." },
      ...freshWaits(route, crop),
      wagon,
    ];
  }
  const sorghum = PRUSSIC_CROPS.includes(crop);
  const ferment = sorghum ? PRUSSIC_WAIT_WEEKS : WAIT_WEEKS[route];
  const weeks: Wait = {
    what: "ferment",
    amount: ferment.value,
    unit: "weeks",
    text: `Let it ferment for ${ferment.value} weeks, then test it.`,
    source: ferment.source,
  };
  const gas: Wait = {
    what: "silo-gas",
    amount: SILO_GAS_WEEKS.value,
    unit: "weeks",
    text: `Silo gas kills: stay out for ${SILO_GAS_WEEKS.value} weeks, and do not puncture bags.`,
    source: SILO_GAS_WEEKS.source,
  };
  return route === "wrapped-bales" ? [weeks, test] : [gas, weeks, test];
}
