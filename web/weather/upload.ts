import { type Limit, within } from "../../model/limits.ts";
import { checkSite, SITE_LIMITS, WIND_HEIGHT_LIMIT } from "../../model/weather/index.ts";
import { isStationAnswer } from "../../model/weather/station/answers.ts";
import type { WeatherFilePlace } from "../../model/weather/station/weather-file.ts";
import { type NumberMarks, numberMarksOf, numberText } from "../format/manner.ts";
import { type Quantity, toPage } from "../format/units.ts";
import type { PlaceErrors, PlaceField, PlaceTexts } from "../place/place-texts.ts";
import { limitOnPage } from "../state/field-limits.ts";
import type { Speech } from "../state/field-reader.ts";
import { limitWords, notANumber, readDegrees, readNumber } from "../state/numbers.ts";

const MB = 1024 * 1024;
/** The server's own limit, known here so that a larger file is refused before it is sent. A test holds the two together. */
export const MAX_UPLOAD_BYTES = 64 * MB;

export const PLACE_LIMITS = {
  ...SITE_LIMITS,
  windHeightM: WIND_HEIGHT_LIMIT,
} as const satisfies Record<Exclude<PlaceField, "timeZone">, Limit>;

/** What the numbers of a place measure; degrees are the same everywhere. */
export const PLACE_QUANTITIES = {
  latitude: null,
  longitude: null,
  elevationM: "elevation",
  windHeightM: "length",
} as const satisfies Record<keyof typeof PLACE_LIMITS, Quantity | null>;

/** A number of the place as it is kept, in metric and with a point; null where it is none. */
export function placeNumber(
  field: keyof typeof PLACE_LIMITS,
  text: string,
  marks: NumberMarks = ".",
): number | null {
  return PLACE_QUANTITIES[field] === null ? readDegrees(text) : readNumber(text, marks);
}

/**
 * How lengths of a place are typed. They are kept with a point, so that where decimals have a comma a point is one too; but
 * for "1.500", which is asked about.
 */
export function placeMarksOf(locale: string): NumberMarks {
  const marks = numberMarksOf(locale);
  return marks === ",." ? "," : marks;
}

/** A metre of the place as it is kept: to the centimetre, so that it reads alike in every language. */
export function keptMetres(metres: number): string {
  return String(Number(metres.toFixed(2)));
}

/** Value and limit in the units of the one who reads it. The texts themselves are always metric. */
function outside(field: keyof typeof PLACE_LIMITS, value: number, speech: Speech): string {
  const { units = "metric", locale = "en" } = speech;
  const quantity = PLACE_QUANTITIES[field];
  const got = numberText(quantity === null ? value : toPage(value, quantity, units), 1, { locale });
  return `Got ${got}, ${limitWords(limitOnPage(PLACE_LIMITS[field], quantity, units), locale)}.`;
}

/** The place and what was said of the file, or what is wrong with the place. */
export function readPlace(
  texts: PlaceTexts,
  answers: Readonly<Record<string, string>> = {},
  speech: Speech = {},
): {
  readonly errors: PlaceErrors;
  readonly place: WeatherFilePlace | null;
} {
  const errors: Partial<Record<PlaceField, string>> = {};
  const marks = placeMarksOf(speech.locale ?? "en");
  const numbers = { latitude: 0, longitude: 0, elevationM: 0, windHeightM: 0 };
  for (const field of ["latitude", "longitude", "elevationM", "windHeightM"] as const) {
    const text = texts[field].trim();
    const value = placeNumber(field, text, marks);
    if (text === "") errors[field] = "Empty; the file does not say it, so a number is needed.";
    else if (value === null) errors[field] = notANumber(text, marks);
    else if (!within(value, PLACE_LIMITS[field])) errors[field] = outside(field, value, speech);
    else numbers[field] = value;
  }
  const timeZone = texts.timeZone.trim();
  const site = { latitude: 0, longitude: 0, elevationM: 0, timeZone };
  if (timeZone === "") errors.timeZone = "Empty; the clock of the farm is needed, as America/Chicago.";
  else if (checkSite(site, "site").length > 0)
    errors.timeZone = `Got "${timeZone}", must be an IANA zone name such as America/Chicago.`;
  if (Object.keys(errors).length > 0) return { errors, place: null };
  const { windHeightM, ...where } = numbers;
  const stationAnswers = Object.fromEntries(Object.entries(answers).filter(([id]) => isStationAnswer(id)));
  const canonical = Object.fromEntries(Object.entries(answers).filter(([id]) => !isStationAnswer(id)));
  return { errors, place: { site: { ...where, timeZone }, windHeightM, answers: canonical, stationAnswers } };
}

export function sizeError(bytes: number): string | null {
  if (bytes <= MAX_UPLOAD_BYTES) return null;
  return `The file has ${(bytes / MB).toFixed(0)} MB, must be at most ${MAX_UPLOAD_BYTES / MB} MB. Nothing was sent.`;
}
