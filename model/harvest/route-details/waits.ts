import { coefficient } from "../../coefficient.ts";
import type { CropKey } from "../../drying/keys.ts";
import { PRUSSIC_WAIT_WEEKS, WAIT_WEEKS } from "../../feed/ensiling.ts";
import { PRUSSIC_CROPS } from "../hazards/prussic-crops.ts";
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
  readonly what: "ferment" | "silo-gas" | "wagon" | "test";
  readonly amount: number | null;
  readonly unit: "weeks" | "h" | null;
  readonly text: string;
  readonly source: string;
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
  if (route === "grazing") return [{ ...test, text: "Test what the animals will eat before they go in." }];
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
    return [{ ...test, text: "Laboratory result before the first load and after every rain." }, wagon];
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
