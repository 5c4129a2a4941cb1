import type { DrydownRequest } from "../../model/drying/request.ts";
import type { WindowsRequest } from "../../model/harvest/request.ts";
import type { Site, WeatherSeries } from "../../model/weather/series.ts";
import { exampleDrydown, exampleWindows } from "./requests.ts";
import { inventedSpell, PLACES, type SpellOptions } from "./weather.ts";

/** A place and a time that could catch a program out, with both questions asked of it. */
export interface Scenario {
  readonly name: string;
  readonly weather: WeatherSeries;
  readonly drydown: DrydownRequest;
  readonly windows: WindowsRequest;
}

const HOUR_MS = 3_600_000;
const HOURS = 7 * 24;
export const CUT_HOURS = [9, 13];
export const WORK_HOURS = { from: "07:00", to: "20:00" };

function scenario(name: string, site: Site, fromUtc: string, options: SpellOptions = {}): Scenario {
  const weather = inventedSpell(site, fromUtc, HOURS, options);
  const cutMs = Date.parse(fromUtc) + 10.5 * HOUR_MS;
  const at = (hours: number) => new Date(cutMs + hours * HOUR_MS).toISOString().replace(".000Z", "Z");
  const operations = [{ kind: "ted" as const, atUtc: at(24), coveredFraction: 0.95 }];
  return {
    name,
    weather,
    drydown: { ...exampleDrydown(), weather, cutUtc: at(0), operations },
    // Few draws: what is asked of these answers is asked of each draw alike.
    windows: { ...exampleWindows(), weather, cutHours: CUT_HOURS, workHours: WORK_HOURS, draws: 12 },
  };
}

export const SCENARIOS: readonly Scenario[] = [
  scenario("South Dakota, July", PLACES.southDakota, "2026-07-01T05:00:00Z", { rainMm: { 60: 2, 61: 3 } }),
  scenario("New Zealand, December", PLACES.newZealand, "2026-12-05T11:00:00Z", {
    meanTempC: 19,
    dewPointC: 9,
  }),
  scenario("India, half-hour zone", PLACES.india, "2026-10-09T18:00:00Z", { meanTempC: 27, dewPointC: 14 }),
  scenario("South Dakota, clock goes forward", PLACES.southDakota, "2026-03-06T06:00:00Z", {
    meanTempC: 16,
    dewPointC: 2,
  }),
  scenario("South Dakota, clock goes back", PLACES.southDakota, "2026-10-30T05:00:00Z", {
    meanTempC: 15,
    dewPointC: 1,
  }),
  scenario("Ireland, clock goes forward", PLACES.ireland, "2026-03-27T00:00:00Z", {
    meanTempC: 12,
    dewPointC: 5,
  }),
  scenario("Arctic, polar day", PLACES.arctic, "2026-06-18T22:00:00Z", {
    meanTempC: 14,
    swingC: 4,
    dewPointC: 6,
  }),
];
