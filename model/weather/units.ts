/**
 * Factors from the units that weather arrives in to the model's. Definitions are exact except where said.
 * Multiply the foreign value by the factor.
 */
export const TO_MPS = { mph: 0.44704, kmh: 1 / 3.6, knot: 1852 / 3600 } as const;
export const TO_MM = { inch: 25.4 } as const;
/** Inch of mercury at 0 °C: conventional. */
export const TO_HPA = { inchOfMercury: 33.8639, millibar: 1, kilopascal: 10, pascal: 0.01 } as const;

/** Langley as REF-ET and ASCE practice take it, MJ/m²; the thermochemical one is 0.04184. */
export const LANGLEY_MJ_M2 = 0.041868;

/** Energy of one hour to its mean flux, W/m². */
export const HOURLY_TO_WM2 = {
  megajoulePerM2: 1e6 / 3600,
  joulePerCm2: 1e4 / 3600,
  kilowattHourPerM2: 1000,
  langley: (LANGLEY_MJ_M2 * 1e6) / 3600,
} as const;

/** W/m² as MJ/m² in an hour. */
export const WM2_TO_MJ_M2_H = 0.0036;

/** °C of a temperature in °F. */
export function celsiusOfFahrenheit(tempF: number): number {
  return (tempF - 32) / 1.8;
}
