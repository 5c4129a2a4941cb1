import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { HourlyWeather } from "../../../model/weather/hourly.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";

/** The invented spells of weather, made ready for the model. */
export function sampleWeathers(): { id: string; weather: HourlyWeather }[] {
  const folder = fileURLToPath(new URL("../../../weather-samples/", import.meta.url));
  return readdirSync(folder)
    .filter((name) => name.endsWith(".json"))
    .map((name) => {
      const { id, series } = JSON.parse(readFileSync(folder + name, "utf8"));
      const prepared = prepareWeather(series);
      if (!prepared.ok)
        throw new Error(`${name}: ${prepared.issues.map((issue) => issue.message).join("; ")}`);
      return { id, weather: prepared.value.weather };
    });
}
