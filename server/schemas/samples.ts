import { z } from "@hono/zod-openapi";
import { drydownWeather } from "./weather.ts";

/** One file of weather-samples/. */
export const sampleSchema = z
  .object({ id: z.string(), title: z.string(), series: drydownWeather })
  .openapi("Sample");

export const samplesSchema = z.array(sampleSchema);
