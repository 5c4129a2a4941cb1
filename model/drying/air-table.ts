import type { HourlyWeather } from "../weather/hourly.ts";
import { airTerms, soilTemperatures } from "./air-terms.ts";
import type { DryingParameters } from "./coefficients.ts";

/** The air terms of every hour of a weather, one array a term: computed once, read by every cut of the sweep. */
export interface AirTable {
  readonly airTempC: Float64Array;
  readonly vapourPressureKPa: Float64Array;
  readonly airSaturationKPa: Float64Array;
  readonly slopeKPaPerC: Float64Array;
  readonly soilSaturationKPa: Float64Array;
  readonly radiationKMps: Float64Array;
  readonly neutralMps: Float64Array;
  readonly radiativeMps: Float64Array;
  readonly psychrometricKPaPerC: Float64Array;
  readonly vapourMmPerH: Float64Array;
  readonly buoyancyPerK: Float64Array;
  readonly soilShare: Float64Array;
  /** Oswin's ln A and C of the drying branch, and ln(h / (1 - h)) of the air's own humidity. */
  readonly dryingLogA: Float64Array;
  readonly dryingC: Float64Array;
  readonly airLogOdds: Float64Array;
}

/** Tabulates the air terms of a whole weather. */
export function airTable(weather: HourlyWeather, p: DryingParameters): AirTable {
  const column = () => new Float64Array(weather.count);
  const table = {
    airTempC: column(),
    vapourPressureKPa: column(),
    airSaturationKPa: column(),
    slopeKPaPerC: column(),
    soilSaturationKPa: column(),
    radiationKMps: column(),
    neutralMps: column(),
    radiativeMps: column(),
    psychrometricKPaPerC: column(),
    vapourMmPerH: column(),
    buoyancyPerK: column(),
    soilShare: column(),
    dryingLogA: column(),
    dryingC: column(),
    airLogOdds: column(),
  };
  const soilTempC = soilTemperatures(weather);
  for (let i = 0; i < weather.count; i++) {
    const air = airTerms(weather, i, soilTempC[i] as number, p);
    table.airTempC[i] = air.airTempC;
    table.vapourPressureKPa[i] = air.vapourPressureKPa;
    table.airSaturationKPa[i] = air.airSaturationKPa;
    table.slopeKPaPerC[i] = air.slopeKPaPerC;
    table.soilSaturationKPa[i] = air.soilSaturationKPa;
    table.radiationKMps[i] = air.radiationKMps;
    table.neutralMps[i] = air.neutralMps;
    table.radiativeMps[i] = air.radiativeMps;
    table.psychrometricKPaPerC[i] = air.psychrometricKPaPerC;
    table.vapourMmPerH[i] = air.vapourMmPerH;
    table.buoyancyPerK[i] = air.buoyancyPerK;
    table.soilShare[i] = air.isDay ? 1 : p.soilNightShare;
    table.dryingLogA[i] = Math.log(air.dryingA);
    table.dryingC[i] = air.dryingC;
    table.airLogOdds[i] = logOdds(air.vapourPressureKPa / air.airSaturationKPa);
  }
  return table;
}

/** ln(h / (1 - h)) of a humidity held to the isotherm's range, 0.001-0.98. */
export function logOdds(rhFrac: number): number {
  const h = rhFrac > 0.98 ? 0.98 : Math.max(rhFrac, 0.001);
  return Math.log(h / (1 - h));
}
