import type { SwathRequest } from "../../../../model/drying/request.ts";

/** Invented days and swaths that several topics share. */

export const SUNNY_DRY = {
  minTempC: 12,
  maxTempC: 27,
  dewPointC: 11,
  windMps: 2.5,
  nightWindMps: 1,
  noonSunWm2: 880,
  cloudFrac: 0,
};
export const CLOUDY_WET = {
  minTempC: 15,
  maxTempC: 21,
  dewPointC: 14,
  windMps: 2.5,
  nightWindMps: 1.5,
  noonSunWm2: 400,
  cloudFrac: 0.85,
};
export const CORN_DAY = {
  minTempC: 22,
  maxTempC: 36,
  dewPointC: 13,
  windMps: 3,
  noonSunWm2: 900,
  cloudFrac: 0,
};

export const DROUGHT_CORN: Partial<SwathRequest> = {
  crop: "drought-corn",
  dryMatterTHa: 3,
  initialMoistureWb: 0.86,
  coveredFraction: 0.5,
  conditioning: "roll",
  stubbleCm: 30,
};
