import type { CrewFieldRequest, CrewOp, CrewPlanRequest } from "../../model/crew/index.ts";
import type { WeatherSeries } from "../../model/weather/index.ts";

/** Every crop, customer, machine and person here is invented. */

const HAY: readonly CrewOp[] = ["mow", "ted", "rake", "bale"];
const WRAPPED: readonly CrewOp[] = ["mow", "rake", "bale", "wrap"];
const CHOP: readonly CrewOp[] = ["mow", "rake", "chop"];

const GRASS = {
  crop: "cool-season-grass",
  dryMatterTHa: 3,
  initialMoistureWb: 0.78,
  conditioning: "roll",
  coveredFraction: 0.8,
  stubbleCm: 8,
  soil: "moist",
} as const;
const ALFALFA = { ...GRASS, crop: "alfalfa", dryMatterTHa: 3.2 } as const;

type Row = readonly [
  id: string,
  name: string,
  customer: string,
  siteId: string,
  areaHa: number,
  route: CrewFieldRequest["route"],
  ops: readonly CrewOp[],
  valuePerHa: number,
  crop: typeof GRASS | typeof ALFALFA,
];

const ROWS: readonly Row[] = [
  ["creek", "Creek field", "Invented customer one", "home", 8, "dry-hay", HAY, 420, GRASS],
  ["long-acre", "Long acre", "Invented customer one", "home", 6, "wrapped-bales", WRAPPED, 360, ALFALFA],
  ["orchard", "Orchard piece", "Invented customer two", "home", 5, "wilted-chop", CHOP, 330, GRASS],
  ["hilltop", "Hilltop", "Invented customer two", "hill", 10, "dry-hay", HAY, 400, GRASS],
  ["mill-lane", "Mill lane", "Invented customer three", "hill", 7, "wrapped-bales", WRAPPED, 350, GRASS],
  ["top-forty", "Top forty", "Invented customer three", "hill", 12, "dry-hay", HAY, 380, ALFALFA],
];

/** How the invented members differ from the invented forecast: hours that the rain comes later, its share, air warmer. */
const VARIANTS = [
  { laterH: 0, rainShare: 1, warmerC: 0 },
  { laterH: -6, rainShare: 1.3, warmerC: -1 },
  { laterH: 5, rainShare: 0.6, warmerC: 0.5 },
  { laterH: -12, rainShare: 0.8, warmerC: -1.5 },
  { laterH: 20, rainShare: 0.4, warmerC: 1.5 },
] as const;

/** Invented weather with invented members beside it, so that the plan has odds; a forecast that has its own keeps them. */
export function withInventedMembers(series: WeatherSeries): WeatherSeries {
  if ((series.members?.length ?? 0) > 0) return series;
  const { hours } = series;
  const members = VARIANTS.map(({ laterH, rainShare, warmerC }) => ({
    rainMm: hours.rainMm.map((_, i) => {
      const mm = hours.rainMm[Math.min(hours.rainMm.length - 1, Math.max(0, i - laterH))] ?? null;
      return mm === null ? null : Number((mm * rainShare).toFixed(2));
    }),
    airTempC: hours.airTempC.map((tempC) => (tempC === null ? null : Number((tempC + warmerC).toFixed(1)))),
  }));
  return { ...series, members };
}

/** As far from home as a tractor drives in 20 minutes: about 8 km as the crow flies, towards the equator. */
const HILL_DEG = 0.07;

function hillOf(site: WeatherSeries["site"]): WeatherSeries["site"] {
  const latitude = site.latitude + (site.latitude > 0 ? -HILL_DEG : HILL_DEG);
  return { ...site, latitude: Number(latitude.toFixed(4)) };
}

/** The plan that the page opens with: an invented crew in this weather. */
export function demoCrew(series: WeatherSeries): CrewPlanRequest {
  return {
    sites: {
      home: { name: "Home farm", series },
      hill: { name: "Hill farm", series: { ...series, site: hillOf(series.site) } },
    },
    fields: ROWS.map(([id, name, customer, siteId, areaHa, route, ops, valuePerHa, swath]) => ({
      id,
      name,
      customer,
      siteId,
      areaHa,
      route,
      ops,
      valuePerHa,
      priority: 1,
      dueUtc: null,
      swath,
    })),
    machines: [
      { id: "mower-1", name: "Mower", kind: "mower", haPerH: 4 },
      { id: "tedder-1", name: "Tedder", kind: "tedder", haPerH: 6 },
      { id: "rake-1", name: "Rake", kind: "rake", haPerH: 5 },
      { id: "baler-1", name: "Baler", kind: "baler", haPerH: 4 },
      { id: "wrapper-1", name: "Wrapper", kind: "wrapper", haPerH: 4 },
      { id: "chopper-1", name: "Chopper", kind: "chopper", haPerH: 3 },
    ],
    people: [
      { id: "one", name: "Driver one", from: "07:00", to: "20:00" },
      { id: "two", name: "Driver two", from: "07:00", to: "20:00" },
      { id: "three", name: "Driver three", from: "09:00", to: "18:00" },
    ],
    travelMin: { "home|hill": 20 },
    seed: 1,
    timeLimitS: 20,
  };
}
