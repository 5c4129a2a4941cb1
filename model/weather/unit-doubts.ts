import { type Issue, within } from "../limits.ts";
import { dewPointC, vapourPressureKPa } from "./air.ts";
import { COLUMN_LIMITS, HIGHEST_DEW_POINT_C } from "./limits.ts";
import type { WeatherColumns } from "./series.ts";
import { shown } from "./shown.ts";

/** Median of the values; NaN of none. */
function median(values: number[]): number {
  values.sort((x, y) => x - y);
  const middle = values.length >> 1;
  return values.length % 2 === 1
    ? (values[middle] ?? Number.NaN)
    : ((values[middle - 1] ?? Number.NaN) + (values[middle] ?? Number.NaN)) / 2;
}

/** Dew points implied by temperature and humidity must be possible on Earth and agree with a dew point column, °C. */
const DEW_DISAGREEMENT_C = 3;

/** What a suspicion would have accepted, in words: an implied dew point, two that agree, or per cent. */
export function limitOfSuspicion({ path }: Issue): string {
  if (path.endsWith("relHumidityPct")) return "per cent of 0-100, not a fraction of 0-1";
  return path.endsWith("]")
    ? `a dew point of at most ${HIGHEST_DEW_POINT_C} °C`
    : `dew points within ${DEW_DISAGREEMENT_C} °C of each other`;
}

/**
 * Looks for a column in another unit than its name says. Cool °F readings pass every range of °C, but together with
 * the humidity they imply dew points that no place on Earth has; hot dry air does not.
 */
export function unitSuspicions(hours: WeatherColumns): Issue[] {
  const { airTempC, relHumidityPct, dewPointC: dew } = hours;
  if (!Array.isArray(airTempC) || !Array.isArray(relHumidityPct)) return [];
  const issues: Issue[] = [];
  const differences: number[] = [];
  let impossible = 0;
  let worst = { hour: -1, dewC: HIGHEST_DEW_POINT_C };
  let mostHumid = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < airTempC.length; i++) {
    const humidity = relHumidityPct[i];
    if (typeof humidity !== "number" || !within(humidity, COLUMN_LIMITS.relHumidityPct)) continue;
    mostHumid = Math.max(mostHumid, humidity);
    const air = airTempC[i];
    if (typeof air !== "number" || !within(air, COLUMN_LIMITS.airTempC)) continue;
    // Below 36 °C the dew point cannot be above it, and most hours need no logarithm.
    const point = dew?.[i];
    if (air <= HIGHEST_DEW_POINT_C && typeof point !== "number") continue;
    const implied = dewPointC(Math.max(1e-4, vapourPressureKPa(air, humidity / 100)));
    if (typeof point === "number") differences.push(Math.abs(implied - point));
    if (implied > HIGHEST_DEW_POINT_C) impossible++;
    if (implied > worst.dewC) worst = { hour: i, dewC: implied };
  }
  if (worst.hour >= 0) {
    const at = `weather.hours.airTempC[${worst.hour}]`;
    issues.push({
      path: at,
      code: "unit-suspect",
      message:
        `${at}: ${shown(Number(airTempC[worst.hour]))} °C with ${shown(Number(relHumidityPct[worst.hour]))} % humidity means a dew point of ` +
        `${worst.dewC.toFixed(0)} °C, and none above ${HIGHEST_DEW_POINT_C} °C is possible (${impossible} such ` +
        `${impossible === 1 ? "hour" : "hours"}). Is airTempC in °F? °C = (°F - 32) / 1.8`,
    });
  } else if (differences.length > 0 && median(differences) > DEW_DISAGREEMENT_C) {
    issues.push({
      path: "weather.hours.airTempC",
      code: "unit-suspect",
      message:
        `weather.hours.airTempC: temperature and humidity imply dew points that differ from dewPointC by ` +
        `${median(differences).toFixed(1)} °C on the median, at most ${DEW_DISAGREEMENT_C} °C is plausible. ` +
        "Is one of the two columns in °F?",
    });
  }
  if (Number.isFinite(mostHumid) && mostHumid <= 1) {
    issues.push({
      path: "weather.hours.relHumidityPct",
      code: "unit-suspect",
      message:
        `weather.hours.relHumidityPct: the most humid hour has ${shown(mostHumid)} %, which no weather has. ` +
        "Is the column a fraction of 0-1? Give per cent of 0-100",
    });
  }
  return issues;
}
