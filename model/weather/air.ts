import { requireRange } from "../limits.ts";

/** Moist air: vapour pressure, dew point, pressure and the psychrometer. kPa and °C throughout. */

/** Allen et al. (1998) FAO-56 eq. 11; °C in, kPa out. */
export const FAO56_EQ11 = { aKPa: 0.6108, b: 17.27, cC: 237.3 } as const;

/** Allen et al. (1998) FAO-56 eq. 7, a simplified ideal-gas atmosphere at 20 °C. */
export const FAO56_EQ7 = { seaLevelKPa: 101.3, seaLevelK: 293, lapseKPerM: 0.0065, exponent: 5.26 } as const;

/** Allen et al. (1998) FAO-56 eq. 8: psychrometric constant per pressure, 1/°C. */
export const PSYCHROMETRIC_PER_KPA = 0.000665;

/** Allen et al. (1998) FAO-56 eq. 16: ventilated (Assmann) psychrometer at about 5 m/s, 1/°C. */
export const VENTILATED_PSYCHROMETER = 0.000662;

/** Ratio of the molar masses of water vapour and dry air. ASHRAE (2017) ch. 1. */
export const VAPOUR_TO_DRY_AIR = 0.621945;

/**
 * Saturation vapour pressure over liquid water.
 *
 * @param tempC air temperature, °C; accepted -80...100
 * @returns kPa
 * @throws RangeError outside that range, or NaN
 *
 * Source: FAO-56 (Allen et al. 1998) eq. 11. Within 0.12 % of ASHRAE (2017) ch. 1 eq. 6 for 0...50 °C (tested).
 * Below 0 °C this is still the liquid-water curve, not ice.
 * @example saturationVapourPressureKPa(25) // 3.168
 */
export function saturationVapourPressureKPa(tempC: number): number {
  requireRange("saturationVapourPressureKPa", "tempC", tempC, -80, 100);
  const { aKPa, b, cC } = FAO56_EQ11;
  return aKPa * Math.exp((b * tempC) / (tempC + cC));
}

/**
 * Slope of the saturation curve, kPa per °C: the derivative of `saturationVapourPressureKPa`.
 *
 * Source: FAO-56 eq. 13, whose printed 4098 is b times c rounded from 4098.17.
 */
export function saturationSlopeKPaPerC(tempC: number): number {
  const { b, cC } = FAO56_EQ11;
  return (saturationVapourPressureKPa(tempC) * b * cC) / (tempC + cC) ** 2;
}

/**
 * Dew point of air with this vapour pressure, °C. The exact inverse of `saturationVapourPressureKPa`.
 *
 * @param vapourPressureKPa 0.000001...102 kPa
 */
export function dewPointC(vapourPressureKPa: number): number {
  requireRange("dewPointC", "vapourPressureKPa", vapourPressureKPa, 1e-6, 102);
  const { aKPa, b, cC } = FAO56_EQ11;
  const lnRatio = Math.log(vapourPressureKPa / aKPa);
  return (cC * lnRatio) / (b - lnRatio);
}

/**
 * Vapour pressure of air at this temperature and relative humidity, kPa.
 *
 * @param rhFrac 0-1; sensors' readings to 1.03 are taken as 1
 */
export function vapourPressureKPa(tempC: number, rhFrac: number): number {
  requireRange("vapourPressureKPa", "rhFrac", rhFrac, 0, 1.03);
  return Math.min(1, rhFrac) * saturationVapourPressureKPa(tempC);
}

/** Relative humidity 0-1 over liquid water; air holding more than saturation counts as saturated. */
export function relHumidityFrac(tempC: number, vapourKPa: number): number {
  return Math.min(1, vapourKPa / saturationVapourPressureKPa(tempC));
}

/** What the air could still take up, kPa; never negative. */
export function vapourPressureDeficitKPa(tempC: number, vapourKPa: number): number {
  return Math.max(0, saturationVapourPressureKPa(tempC) - vapourKPa);
}

/**
 * Mean air pressure at an elevation, kPa.
 *
 * Source: FAO-56 eq. 7 (ASCE-EWRI 2005 eq. 3). Weather moves the true pressure by about 2 % either way.
 * @param elevationM -450...6000 m
 * @example standardPressureKPa(1800) // 81.8
 */
export function standardPressureKPa(elevationM: number): number {
  requireRange("standardPressureKPa", "elevationM", elevationM, -450, 6000);
  const { seaLevelKPa, seaLevelK, lapseKPerM, exponent } = FAO56_EQ7;
  return seaLevelKPa * ((seaLevelK - lapseKPerM * elevationM) / seaLevelK) ** exponent;
}

/** Psychrometric constant at this pressure, kPa per °C. FAO-56 eq. 8. */
export function psychrometricKPaPerC(pressureKPa: number): number {
  return PSYCHROMETRIC_PER_KPA * pressureKPa;
}

/**
 * Vapour pressure from a wet and a dry thermometer, kPa.
 *
 * Source: FAO-56 eq. 15; the default coefficient is that of a ventilated psychrometer, 0.0008 is naturally
 * ventilated, 0.0012 indoors (eq. 16).
 */
export function vapourPressureOfPsychrometerKPa(
  dryTempC: number,
  wetTempC: number,
  pressureKPa: number,
  coefficientPerC: number = VENTILATED_PSYCHROMETER,
): number {
  return saturationVapourPressureKPa(wetTempC) - coefficientPerC * pressureKPa * (dryTempC - wetTempC);
}

/**
 * Temperature of a ventilated wet thermometer, °C: the inverse of `vapourPressureOfPsychrometerKPa`, to 0.0001 °C.
 *
 * @throws RangeError when no temperature between -80 °C and the air's balances (humidity above saturation)
 */
export function wetBulbC(tempC: number, vapourKPa: number, pressureKPa: number): number {
  const excess = (wetC: number) => vapourPressureOfPsychrometerKPa(tempC, wetC, pressureKPa) - vapourKPa;
  let low = -80;
  let high = tempC;
  if (!(excess(low) <= 0 && excess(high) >= -1e-12)) {
    throw new RangeError(`wetBulbC: vapourKPa must be at most saturation at ${tempC} °C, got ${vapourKPa}`);
  }
  // The excess rises with the wet temperature throughout, so halving 200 K forty times is certain and exact enough.
  for (let pass = 0; pass < 40 && high - low > 1e-4; pass++) {
    const mid = 0.5 * (low + high);
    if (excess(mid) > 0) high = mid;
    else low = mid;
  }
  return 0.5 * (low + high);
}

/**
 * Humidity ratio, kg of vapour per kg of dry air.
 *
 * Source: ASHRAE Handbook - Fundamentals (2017) ch. 1 eq. 20.
 */
export function humidityRatio(vapourKPa: number, pressureKPa: number): number {
  if (!(vapourKPa >= 0 && vapourKPa < pressureKPa)) {
    throw new RangeError(
      `humidityRatio: vapourKPa must be in [0, pressureKPa = ${pressureKPa}), got ${vapourKPa}`,
    );
  }
  return (VAPOUR_TO_DRY_AIR * vapourKPa) / (pressureKPa - vapourKPa);
}

/** Vapour pressure of air with this humidity ratio, kPa: the inverse of `humidityRatio`. ASHRAE (2017) ch. 1 eq. 20. */
export function vapourPressureOfRatioKPa(ratio: number, pressureKPa: number): number {
  requireRange("vapourPressureOfRatioKPa", "ratio", ratio, 0, 1);
  return (pressureKPa * ratio) / (VAPOUR_TO_DRY_AIR + ratio);
}

/**
 * Humidity ratio from the thermodynamic wet-bulb temperature, above freezing. A ventilated psychrometer reads a little
 * differently: at 40 °C dry and 20 °C wet this gives 0.0064, the psychrometer's equation 0.0062.
 *
 * Source: ASHRAE Handbook - Fundamentals (2017) ch. 1 eq. 33.
 */
export function humidityRatioOfWetBulb(dryTempC: number, wetTempC: number, pressureKPa: number): number {
  requireRange("humidityRatioOfWetBulb", "wetTempC", wetTempC, 0, dryTempC);
  const saturated = humidityRatio(saturationVapourPressureKPa(wetTempC), pressureKPa);
  const energy = (2501 - 2.326 * wetTempC) * saturated - 1.006 * (dryTempC - wetTempC);
  return energy / (2501 + 1.86 * dryTempC - 4.186 * wetTempC);
}
