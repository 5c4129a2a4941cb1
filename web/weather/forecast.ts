import type { WeatherSeries } from "../../model/weather/index.ts";
import { isKnownTimeZone } from "../../model/weather/index.ts";
import { SERVICE_LABELS, SERVICE_TROUBLES, type ServiceTrouble } from "../../model/weather/service-words.ts";
import type { Note, ProviderName } from "../../server/forecasts/provider.ts";
import type { ErrorBody } from "../../server/problem.ts";
import { noteStatus } from "../book/key-needed.ts";
import type { PlaceErrors, PlaceField, PlaceTexts } from "../place/place-texts.ts";
import { readDegrees, readNumber } from "../state/numbers.ts";

export type { Note, ProviderName };

/** The services a forecast can be had from, as they call themselves. */
export const PROVIDER_LABELS: Readonly<Record<ProviderName, string>> = SERVICE_LABELS;

export function isProvider(name: string): name is ProviderName {
  return Object.hasOwn(PROVIDER_LABELS, name);
}

export function providerLabel(provider: string | null | undefined): string {
  if (provider === null || provider === undefined) return "an open weather service";
  return isProvider(provider) ? PROVIDER_LABELS[provider] : provider;
}

/** A place whose forecast is asked for. */
export interface ForecastPlace {
  readonly latitude: number;
  readonly longitude: number;
  /** As the user corrected it; null = found from the place. */
  readonly elevationM: number | null;
  readonly timeZone: string | null;
  /** The service to be asked first; null = the order goes by the place. */
  readonly provider: ProviderName | null;
}

export interface Forecast {
  readonly series: WeatherSeries;
  /** What is to be told beside the series: its age, the services that failed, what was estimated. */
  readonly notes: readonly Note[];
}

export type ForecastAnswer = { readonly forecast: Forecast } | { readonly failure: ForecastFailure };

/** Why there is no forecast: in a sentence, and service by service. */
export interface ForecastFailure {
  readonly message: string;
  readonly lines: readonly string[];
  /** What is wrong with a field of the place. */
  readonly fields: PlaceErrors;
}

/** Whether a text was typed by hand: it differs from what was found for the place that is shown. */
function corrected(text: string, found: string): boolean {
  return text.trim() !== "" && text.trim() !== found;
}

/** What is known of the place that is shown: nothing before a forecast is there. */
export interface KnownPlace {
  readonly asked: ForecastPlace;
  readonly site: WeatherSeries["site"];
}

/**
 * The place as typed, or what is wrong with it. Zone and elevation go with it only where they were corrected by hand:
 * otherwise they are found from the place.
 *
 * @param foundZone the zone that was found for the place typed; null where none was
 */
export function readForecastPlace(
  texts: PlaceTexts,
  errors: PlaceErrors,
  provider: ProviderName | null,
  known: KnownPlace | null,
  foundZone: string | null,
): { readonly place: ForecastPlace } | { readonly errors: PlaceErrors } {
  const latitude = readDegrees(texts.latitude);
  const longitude = readDegrees(texts.longitude);
  const zoneText = texts.timeZone.trim();
  const wrong: Partial<Record<PlaceField, string>> = {};
  for (const field of ["latitude", "longitude"] as const) {
    const message = texts[field].trim() === "" ? "Empty; a number of degrees is needed." : errors[field];
    if (message !== undefined) wrong[field] = message;
  }
  const heightText = texts.elevationM.trim();
  if (heightText !== "" && errors.elevationM !== undefined) wrong.elevationM = errors.elevationM;
  if (zoneText !== "" && !isKnownTimeZone(zoneText) && errors.timeZone !== undefined)
    wrong.timeZone = errors.timeZone;
  if (latitude === null || longitude === null || Object.keys(wrong).length > 0) return { errors: wrong };
  const same = known !== null && known.site.latitude === latitude && known.site.longitude === longitude;
  const heightFound = known === null ? "" : String(Math.round(known.site.elevationM));
  const zone =
    zoneText !== foundZone && corrected(zoneText, known?.site.timeZone ?? "")
      ? zoneText
      : same
        ? known.asked.timeZone
        : null;
  const height = corrected(heightText, heightFound)
    ? readNumber(heightText)
    : same
      ? known.asked.elevationM
      : null;
  return { place: { latitude, longitude, elevationM: height, timeZone: zone, provider } };
}

/** @param ensemble whether the members are asked for too, where a service has them */
export function forecastQuery(
  { latitude, longitude, elevationM, timeZone, provider }: ForecastPlace,
  ensemble: boolean,
): string {
  const query = new URLSearchParams({ latitude: String(latitude), longitude: String(longitude) });
  if (elevationM !== null) query.set("elevationM", String(elevationM));
  if (timeZone !== null) query.set("timeZone", timeZone);
  if (provider !== null) query.set("provider", provider);
  if (ensemble) query.set("ensemble", "true");
  return query.toString();
}

const NOTES_HEADER = "Swathclock-Notes";
/** The server answers or gives up within 40 s; a little more for the way. */
const LIMIT_MS = 45_000;

function isPlaceField(name: string): name is PlaceField {
  return ["latitude", "longitude", "elevationM", "timeZone"].includes(name);
}

function failure(message: string, lines: readonly string[] = [], fields: PlaceErrors = {}) {
  return { failure: { message, lines, fields } };
}

function isTrouble(code: string): code is ServiceTrouble {
  return Object.hasOwn(SERVICE_TROUBLES, code);
}

const PROVIDER_PATH = "provider.";

function failureOf(body: ErrorBody) {
  const fields: Partial<Record<PlaceField, string>> = {};
  const lines: string[] = [];
  for (const { path, code, message } of body.issues) {
    const provider = path.startsWith(PROVIDER_PATH) ? path.slice(PROVIDER_PATH.length) : null;
    if (isPlaceField(path)) fields[path] ??= message;
    else if (provider !== null && isTrouble(code))
      lines.push(`${providerLabel(provider)} ${SERVICE_TROUBLES[code]}`);
    else lines.push(message);
  }
  if (body.error !== "weather-unavailable") return failure(body.message, lines, fields);
  const reached = body.issues.some(({ code }) => code !== "unreachable");
  const message = reached
    ? "No weather service could give a forecast."
    : "No weather service could be reached: is this machine online?";
  return failure(`${message} Nothing is lost.`, lines, fields);
}

/**
 * Asks the server for the forecast of a place. Whatever the network does wrong comes back in words.
 *
 * @param stop ends the question when another takes its place
 * @param ensemble whether the members of an ensemble are waited for
 */
export async function fetchForecast(
  place: ForecastPlace,
  stop: AbortSignal,
  ensemble = false,
): Promise<ForecastAnswer> {
  let response: Response;
  try {
    response = await fetch(`api/forecast?${forecastQuery(place, ensemble)}`, {
      signal: AbortSignal.any([stop, AbortSignal.timeout(LIMIT_MS)]),
      cache: "no-store",
    });
  } catch {
    return failure("The server could not be reached. Nothing is lost; try again.");
  }
  noteStatus(response.status);
  if (response.status === 401) return failure("This server asks for a key: sign in above. Nothing is lost.");
  try {
    if (!response.ok) return failureOf((await response.json()) as ErrorBody);
    const series = (await response.json()) as WeatherSeries;
    const notes = JSON.parse(response.headers.get(NOTES_HEADER) ?? "[]") as readonly Note[];
    return { forecast: { series, notes } };
  } catch {
    return failure(`The server answered with status ${response.status} and no readable text.`);
  }
}
