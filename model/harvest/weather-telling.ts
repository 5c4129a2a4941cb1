import { localParts } from "../weather/clock.ts";
import { COLUMN_WORDS, PLAIN_TELLING, type WeatherTelling } from "../weather/telling.ts";
import { PLAIN_SAYING, type Saying } from "./saying.ts";
import { dateWords, numberWords } from "./words.ts";

const M_PER_FT = 0.3048;
const F_PER_C = 1.8;

/** The sentences about weather as the rest of an answer is written: on the farm's clock, in its reader's units and words. */
export function weatherTelling(saying: Saying, timeZone: string): WeatherTelling {
  if (saying === PLAIN_SAYING) return PLAIN_TELLING;
  const us = saying.units === "us";
  const said = (value: number, decimals: number) =>
    numberWords(Number((Object.is(value, -0) ? 0 : value).toFixed(decimals)), saying);
  const degree = us ? "°F" : "°C";
  return {
    time: (utcMs) => dateWords(saying, localParts(utcMs, timeZone)),
    tempC: (valueC, decimals = 1) =>
      `${said(us ? valueC * F_PER_C + 32 : valueC, us ? 0 : decimals)} ${degree}`,
    degreesC: (stepC, decimals = 1) => `${said(us ? stepC * F_PER_C : stepC, decimals)} ${degree}`,
    heightM: (valueM) => (us ? `${said(valueM / M_PER_FT, 0)} ft` : `${said(valueM, 1)} m`),
    column: (name) => COLUMN_WORDS[name] ?? name,
  };
}
