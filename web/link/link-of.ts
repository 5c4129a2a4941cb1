import { ROUTES } from "../../model/harvest/index.ts";
import { fromPage, PAGE_UNITS, toPage, type Units } from "../format/units.ts";
import type { PlaceField, PlaceTexts } from "../place/place-texts.ts";
import { DEMO_INPUTS, type Inputs, TEXT_FIELDS, type TextField, type Typed } from "../state/inputs.ts";
import { readNumber, withPoint } from "../state/numbers.ts";
import type { Preset } from "../state/preset.ts";
import { FIRST_SAMPLE } from "../state/reducer.ts";
import { hasUsualRoutes } from "../state/routes-of-crop.ts";
import type { State } from "../state/state.ts";
import { isNumberField } from "../state/typed.ts";
import { demoWith } from "../state/with-crop.ts";
import type { ForecastPlace } from "../weather/forecast.ts";
import { keptMetres, PLACE_QUANTITIES } from "../weather/upload.ts";
import {
  FORECAST_WEATHER,
  LINK_CHOICE_NAMES,
  METRIC_MARK,
  OWN_WEATHER,
  PLACE_FIELDS,
  US_MARK,
} from "./link-words.ts";
import { weatherMark } from "./weather-mark.ts";

/** What a link is made of. */
export interface LinkState extends Pick<State, "source" | "selection"> {
  readonly inputs: Inputs;
  /** What the chosen cut is compared with, where that can be asked again. */
  readonly compare?: Preset | null;
  readonly place: PlaceTexts;
  /** Units in which the place stands on the page; metric without. */
  readonly units?: Units;
}

type Parts = [string, string][];

/** A typed value with its unit system, where that can matter. */
function typedPart(field: TextField, typed: Typed): string {
  const { units, marks } = typed;
  const text = marks !== undefined && isNumberField(field) ? withPoint(typed.text, marks) : typed.text;
  if (units === "us" && TEXT_FIELDS[field] !== null) return `${text}${US_MARK}`;
  return text.endsWith(US_MARK) || text.endsWith(METRIC_MARK) ? `${text}${METRIC_MARK}` : text;
}

function inputParts(inputs: Inputs): Parts {
  const parts: Parts = [];
  const demo = DEMO_INPUTS;
  // A link without a moisture or a stubble means those that its crop is commonly cut at.
  const grown = demoWith(inputs.crop);
  if (inputs.fieldName !== demo.fieldName) parts.push(["field", inputs.fieldName]);
  for (const name of LINK_CHOICE_NAMES) if (inputs[name] !== demo[name]) parts.push([name, inputs[name]]);
  if (inputs.dryingAgent !== demo.dryingAgent) parts.push(["dryingAgent", inputs.dryingAgent ? "yes" : "no"]);
  if (inputs.settled.length > 0) parts.push(["settled", inputs.settled.join(",")]);
  for (const field of Object.keys(TEXT_FIELDS) as TextField[]) {
    const part = typedPart(field, inputs.texts[field]);
    if (part !== typedPart(field, grown.texts[field])) parts.push([field, part]);
  }
  // A link without routes means those by which its crop is commonly brought in.
  if (!hasUsualRoutes(inputs.routes, inputs.crop))
    parts.push(["routes", ROUTES.filter((route) => inputs.routes[route].on).join(",")]);
  for (const route of ROUTES) {
    const { package: pack, store } = inputs.routes[route];
    if (pack !== demo.routes[route].package && pack !== null) parts.push([`${route}.package`, pack]);
    if (store !== demo.routes[route].store && store !== null) parts.push([`${route}.store`, store]);
  }
  return parts;
}

/** Whether all fields say what the demonstration's say. */
export function isDemo(inputs: Inputs): boolean {
  return inputParts(inputs).length === 0;
}

function weatherPart(source: State["source"]): string | null {
  if (source === null) return null;
  if (source.kind === "forecast") return FORECAST_WEATHER;
  return source.kind === "sample" ? source.id : `${OWN_WEATHER}${weatherMark(source.series)}`;
}

/** A place as it was asked for: what was found from it is found again. */
function forecastParts({ latitude, longitude, elevationM, timeZone, provider }: ForecastPlace): Parts {
  const parts: Parts = [
    ["latitude", String(latitude)],
    ["longitude", String(longitude)],
  ];
  if (elevationM !== null) parts.push(["elevationM", String(elevationM)]);
  if (timeZone !== null) parts.push(["timeZone", timeZone]);
  if (provider !== null) parts.push(["provider", provider]);
  return parts;
}

/** A number of the place as its field shows it, where that is the same place. */
function placePart(field: PlaceField, text: string, units: Units): string {
  if (units === "metric" || (field !== "elevationM" && field !== "windHeightM")) return text;
  const value = readNumber(text);
  if (value === null) return text;
  const { decimals } = PAGE_UNITS[PLACE_QUANTITIES[field]].us;
  const shown = toPage(value, PLACE_QUANTITIES[field], units).toFixed(decimals);
  const back = keptMetres(fromPage(Number(shown), PLACE_QUANTITIES[field], units));
  return back === keptMetres(value) ? `${Number(shown)}${US_MARK}` : text;
}

/**
 * The state as the query of an address: what differs from the demonstration's, in the units it was typed in. Units and
 * light belong to the one who looks, and are not in it.
 *
 * @param whole true names the weather even where nothing differs: for a link that is sent
 * @returns "?..." or, for the demonstration as it opens, ""
 */
export function linkOf(
  { inputs, source, selection, place, compare = null, units = "metric" }: LinkState,
  whole = false,
): string {
  const parts: Parts = [];
  if (selection) parts.push(["row", selection.optionId]);
  if (selection?.route) parts.push(["route", selection.route]);
  if (selection?.windowUtc !== undefined) parts.push(["window", selection.windowUtc]);
  if (compare !== null) parts.push(["compare", compare]);
  parts.push(...inputParts(inputs));
  if (source?.kind === "forecast") parts.push(...forecastParts(source.place));
  else if (place.latitude.trim() !== "" || place.longitude.trim() !== "")
    for (const field of PLACE_FIELDS)
      if (place[field].trim() !== "") parts.push([field, placePart(field, place[field].trim(), units)]);
  const weather = weatherPart(source);
  if (weather !== null && (whole || parts.length > 0 || weather !== FIRST_SAMPLE))
    parts.unshift(["weather", weather]);
  if (parts.length === 0) return "";
  // These three may stand in a query as they are, and read better.
  const query = new URLSearchParams(parts).toString();
  return `?${query.replace(/%3A/g, ":").replace(/%2F/g, "/").replace(/%2C/g, ",")}`;
}
