import type { HourlyWeather } from "../weather/hourly.ts";
import { airTerms, soilTemperatures } from "./air-terms.ts";
import type { DryingParameters } from "./coefficients.ts";
import { oswinDb, STALK_BRANCH } from "./isotherm.ts";

/** The air terms of every hour of a weather, one array a term: computed once, read by every cut of the sweep. */
export interface AirTable {
  readonly airTempC: Float64Array;
  readonly vapourPressureKPa: Float64Array;
  readonly airSaturationKPa: Float64Array;
  readonly soilSaturationKPa: Float64Array;
  readonly radiationKMps: Float64Array;
  readonly neutralMps: Float64Array;
  readonly radiativeMps: Float64Array;
  /** 1 / psychrometric constant, °C/kPa. */
  readonly perPsychrometric: Float64Array;
  readonly vapourMmPerH: Float64Array;
  readonly buoyancyPerK: Float64Array;
  readonly soilShare: Float64Array;
  readonly isDay: Uint8Array;
  /** Oswin's ln A, C and 1 / C of the drying branch. */
  readonly dryingLogA: Float64Array;
  readonly dryingC: Float64Array;
  readonly perDryingC: Float64Array;
  /** Moisture at which hay that dries, and coarse stalk, would rest in the air's own humidity, dry basis. */
  readonly hayRestDb: Float64Array;
  readonly stalkRestDb: Float64Array;
}

/** Tabulates the air terms of a whole weather. */
export function airTable(weather: HourlyWeather, p: DryingParameters): AirTable {
  const column = () => new Float64Array(weather.count);
  const table = {
    airTempC: column(),
    vapourPressureKPa: column(),
    airSaturationKPa: column(),
    soilSaturationKPa: column(),
    radiationKMps: column(),
    neutralMps: column(),
    radiativeMps: column(),
    perPsychrometric: column(),
    vapourMmPerH: column(),
    buoyancyPerK: column(),
    soilShare: column(),
    isDay: new Uint8Array(weather.count),
    dryingLogA: column(),
    dryingC: column(),
    perDryingC: column(),
    hayRestDb: column(),
    stalkRestDb: column(),
  };
  const soilTempC = soilTemperatures(weather);
  for (let i = 0; i < weather.count; i++) {
    const air = airTerms(weather, i, soilTempC[i] as number, p);
    table.airTempC[i] = air.airTempC;
    table.vapourPressureKPa[i] = air.vapourPressureKPa;
    table.airSaturationKPa[i] = air.airSaturationKPa;
    table.soilSaturationKPa[i] = air.soilSaturationKPa;
    table.radiationKMps[i] = air.radiationKMps;
    table.neutralMps[i] = air.neutralMps;
    table.radiativeMps[i] = air.radiativeMps;
    table.perPsychrometric[i] = 1 / air.psychrometricKPaPerC;
    table.vapourMmPerH[i] = air.vapourMmPerH;
    table.buoyancyPerK[i] = air.buoyancyPerK;
    table.isDay[i] = air.isDay ? 1 : 0;
    table.soilShare[i] = air.isDay ? 1 : p.soilNightShare;
    table.dryingLogA[i] = Math.log(air.dryingA);
    table.dryingC[i] = air.dryingC;
    table.perDryingC[i] = 1 / air.dryingC;
    const rhFrac = air.vapourPressureKPa / air.airSaturationKPa;
    table.hayRestDb[i] = oswinDb(air.dryingA, air.dryingC, rhFrac);
    table.stalkRestDb[i] = oswinDb(STALK_BRANCH.a, STALK_BRANCH.c, rhFrac);
  }
  return table;
}
