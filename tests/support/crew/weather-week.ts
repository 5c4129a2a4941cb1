import { readFileSync } from "node:fs";
import type { Grid } from "../../../model/crew/grid.ts";
import { buildGrid, type CrewPlanRequest } from "../../../model/crew/index.ts";

/** Fields at four places some 7 km apart, in a week of the invented humid weather: real windows and drives. */
export function askedOfWeather(count: number): CrewPlanRequest {
  const read = (path: string) => JSON.parse(readFileSync(new URL(path, import.meta.url), "utf8"));
  const example = read("../../../server/examples/crew-plan.json") as CrewPlanRequest;
  const { series } = read(
    "../../../weather-samples/humid-cloudy-dew.json",
  ) as CrewPlanRequest["sites"][string];
  const [field] = example.fields;
  if (field === undefined) throw new Error("the example has no field");
  const places = [0, 1, 2, 3].map((i) => {
    const { latitude, longitude } = series.site;
    const at = { latitude: latitude + 0.06 * (i % 2), longitude: longitude + 0.08 * (i >> 1) };
    return [`s${i}`, { series: { ...series, site: { ...series.site, ...at } } }] as const;
  });
  const { dueUtc: _due, ...rest } = field;
  return {
    sites: Object.fromEntries(places),
    horizonDays: 7,
    fields: Array.from({ length: count }, (_, i) => ({
      ...rest,
      id: `f${i}`,
      siteId: `s${i % 4}`,
      areaHa: 4 + ((7 * i) % 9),
      valuePerHa: 300 + 20 * (i % 5),
      ops: ["mow", "ted", "rake", "bale", "haul"],
    })),
    machines: [
      { id: "m1", kind: "mower", haPerH: 4 },
      { id: "m2", kind: "mower", haPerH: 3 },
      { id: "t1", kind: "tedder" },
      { id: "r1", kind: "rake" },
      { id: "b1", kind: "baler", haPerH: 4 },
      { id: "c1", kind: "cart" },
    ],
    people: ["p1", "p2", "p3"].map((id) => ({ id, from: "07:00", to: "20:00" })),
  };
}

export function gridOfWeather(count: number): Grid {
  const built = buildGrid(askedOfWeather(count));
  if (!built.ok) throw new Error(built.issues[0]?.message);
  return built.value.grid;
}
