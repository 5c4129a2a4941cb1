import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { ROOT } from "./root.ts";

/** What a server is started with, so that it asks the mock and nobody else. */
export const MOCKED_SERVICES = {
  NODE_OPTIONS: `--import ${pathToFileURL(join(ROOT, "tests/support/mock-services.mjs")).href}`,
  SWATHCLOCK_OPEN_METEO_URL: "https://open-meteo.invalid",
  SWATHCLOCK_OPEN_METEO_ENSEMBLE_URL: "https://ensemble.invalid",
  SWATHCLOCK_OPEN_METEO_ARCHIVE_URL: "https://archive.invalid",
  SWATHCLOCK_MET_NORWAY_URL: "https://met.invalid",
  SWATHCLOCK_NWS_URL: "https://nws.invalid",
  SWATHCLOCK_BRIGHT_SKY_URL: "https://brightsky.invalid",
};
