import {
  buildGrid,
  type CrewFieldRequest,
  type CrewPlanAnswer,
  type CrewPlanRequest,
  isOfFeed,
  planBuilt,
} from "../../../model/crew/index.ts";
import { seededRandom } from "../../../model/odds/random.ts";
import type { WeatherMember, WeatherSeries } from "../../../model/weather/index.ts";
import { inventedSpell, PLACES } from "../weather.ts";

/** Invented farms and customers for tests of the crew plan from the weather on. */

export const FROM_UTC = "2026-07-01T05:00:00Z";

/** A week with a shower on the fifth day, and members in which it comes sooner, later or not. */
export function spellWithMembers(days: number, members: number, rainDay = 4): WeatherSeries {
  const site = PLACES.southDakota;
  const random = seededRandom(5);
  const rain = (day: number): Record<number, number> => ({ [day * 24 + 10]: 4, [day * 24 + 11]: 6 });
  const central = inventedSpell(site, FROM_UTC, days * 24, {
    meanTempC: 18,
    dewPointC: 11,
    windMps: 2,
    rainMm: rain(rainDay),
  });
  const list = Array.from({ length: members }, (_, i): WeatherMember => {
    const day = i % 5 === 0 ? rainDay - 1 : i % 5 === 1 ? rainDay + 1 : rainDay;
    const own = inventedSpell(site, FROM_UTC, days * 24, {
      meanTempC: 17 + 2 * random(),
      dewPointC: 10 + 2 * random(),
      rainMm: rain(day),
    });
    const { airTempC, relHumidityPct, windSpeedMps, solarWm2, rainMm } = own.hours;
    return { airTempC, relHumidityPct, windSpeedMps, rainMm, ...(solarWm2 ? { solarWm2 } : {}) };
  });
  // Alone it is of the past, and known: a forecast that stands alone would be widened.
  return members > 0 ? { ...central, members: list } : { ...central, origin: "archive" };
}

export function crewField(id: string, over: Partial<CrewFieldRequest> = {}): CrewFieldRequest {
  return {
    id,
    siteId: "s1",
    areaHa: 8,
    swath: {
      crop: "cool-season-grass",
      dryMatterTHa: 3,
      initialMoistureWb: 0.78,
      conditioning: "roll",
      coveredFraction: 0.8,
      stubbleCm: 8,
      soil: "moist",
    },
    route: "dry-hay",
    ops: ["mow", "ted", "rake", "bale"],
    valuePerHa: 400,
    priority: 1,
    ...over,
  };
}

export function crewRequest(over: Partial<CrewPlanRequest> = {}): CrewPlanRequest {
  return {
    sites: { s1: { series: spellWithMembers(7, 0) } },
    fields: [crewField("creek", { name: "Creek field", customer: "First customer" }), crewField("hill")],
    machines: [
      { id: "mower-1", kind: "mower", haPerH: 4 },
      { id: "tedder-1", kind: "tedder" },
      { id: "rake-1", kind: "rake" },
      { id: "baler-1", kind: "baler", haPerH: 4 },
    ],
    people: [
      { id: "a", from: "07:00", to: "20:00" },
      { id: "b", from: "07:00", to: "20:00" },
    ],
    seed: 1,
    timeLimitS: 5,
    ...over,
  };
}

/** The same places with so much rain in every hour from one to another, and in every member. */
export function rainedOn(
  sites: CrewPlanRequest["sites"],
  [from, to]: readonly [number, number],
  mm: number,
): CrewPlanRequest["sites"] {
  const rain = (list: readonly (number | null)[] | undefined) =>
    (list ?? []).map((dry, h) => (h >= from && h < to ? mm : dry));
  const wet = Object.entries(sites).map(([id, site]) => {
    const { hours, members } = site.series;
    const series = {
      ...site.series,
      hours: { ...hours, rainMm: rain(hours.rainMm) },
      members: members?.map((member) => ({ ...member, rainMm: rain(member.rainMm) })),
    };
    return [id, { ...site, series }] as const;
  });
  return Object.fromEntries(wet) as CrewPlanRequest["sites"];
}

/** What an answer says of held work: each plan has cautions of its crops beside them. */
export function heldCautions({ cautions }: Pick<CrewPlanAnswer, "cautions">): CrewPlanAnswer["cautions"] {
  return cautions.filter((caution) => !isOfFeed(caution));
}

/** The plan of a question, its first picture: without a longer search and without help. */
export async function plannedBriefly(request: CrewPlanRequest): Promise<CrewPlanAnswer> {
  const built = buildGrid(request);
  if (!built.ok) throw new Error(built.issues[0]?.message);
  return planBuilt(built.value, { solver: null, elapsedS: () => 0, brief: true });
}
