import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { WeatherSeries } from "../../model/weather/index.ts";
import type { Sample } from "../../web/state/state.ts";
import { ROOT } from "./root.ts";

/** One of the invented samples as it lies in its file. */
export function readSample(id: string): Sample {
  return JSON.parse(readFileSync(join(ROOT, "weather-samples", `${id}.json`), "utf8")) as Sample;
}

export function sampleSeries(id: string): WeatherSeries {
  return readSample(id).series;
}
