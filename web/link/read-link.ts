import { ROUTE_CATALOGUE, ROUTES, type RouteKey } from "../../model/harvest/index.ts";
import { fromPage } from "../format/units.ts";
import { partWords } from "../panel/change-words.ts";
import type { PlaceField, PlaceTexts } from "../place/place-texts.ts";
import type { Selection } from "../state/choice.ts";
import type { Speech } from "../state/field-reader.ts";
import {
  DEMO_INPUTS,
  GATE_KEYS,
  type Inputs,
  type RouteChoice,
  TEXT_FIELDS,
  type TextField,
  type Typed,
} from "../state/inputs.ts";
import { readDegrees, readNumber } from "../state/numbers.ts";
import { PRESETS, type Preset } from "../state/preset.ts";
import { readInputs } from "../state/read-inputs.ts";
import { withUsualRoutes } from "../state/routes-of-crop.ts";
import { isNumberField } from "../state/typed.ts";
import { demoWith } from "../state/with-crop.ts";
import { type ForecastPlace, isProvider, PROVIDER_LABELS } from "../weather/forecast.ts";
import { keptMetres, PLACE_QUANTITIES, readPlace } from "../weather/upload.ts";
import { isDemo } from "./link-of.ts";
import { BEST_SHOWN, FIRST_SHOWN, LEFT_OUT, LinkReader, quoted, STAYS, said } from "./link-reader.ts";
import {
  FORECAST_WEATHER,
  LINK_CHOICE_NAMES,
  LINK_CHOICES,
  LONGEST,
  METRIC_MARK,
  OWN_WEATHER,
  PLACE_FIELDS,
  US_MARK,
} from "./link-words.ts";

/** What a link says, as far as it can be used. */
export interface ReadLink {
  /** Whether the address says anything at all. */
  readonly given: boolean;
  readonly inputs: Inputs;
  /** Null where the demonstration's weather is meant, or an own file. */
  readonly sampleId: string | null;
  /** The place whose forecast is meant; null where other weather is. */
  readonly forecast: ForecastPlace | null;
  /** Mark of the sender's own file, which a link cannot carry. */
  readonly ownMark: string | null;
  readonly selection: Selection | null;
  /** What the chosen cut is to be compared with; null = nothing. */
  readonly compare: Preset | null;
  readonly place: Partial<PlaceTexts>;
  /** What could not be used, in words. */
  readonly problems: readonly string[];
}

const ROW = /^[\w:/.+-]+$/;
const MOMENT = /^\d{4}-\d\d-\d\dT[\d:.]+Z$/;
const SAMPLE_ID = /^[a-z0-9][a-z0-9-]*$/;

function isTextField(name: string): name is TextField {
  return Object.hasOwn(TEXT_FIELDS, name);
}

function readChoices(reader: LinkReader): Omit<Inputs, "texts" | "routes"> {
  const demo = DEMO_INPUTS;
  const choices: Partial<Record<string, string>> = {};
  for (const name of LINK_CHOICE_NAMES) {
    const value = reader.oneOf(name, LINK_CHOICES[name] as readonly string[]);
    if (value !== undefined) choices[name] = value;
  }
  const agent = reader.oneOf("dryingAgent", ["yes", "no"]);
  const ticks = (reader.take("settled") ?? "").split(",").filter((word) => word !== "");
  const settled = GATE_KEYS.filter((key) => ticks.includes(key));
  for (const tick of ticks) if (!GATE_KEYS.some((key) => key === tick)) reader.unknown("settled", tick);
  // Every value was found in the list of its name.
  const known = choices as Partial<Omit<Inputs, "texts" | "routes">>;
  return {
    ...demo,
    ...known,
    fieldName: reader.take("field", LONGEST.fieldName) ?? demo.fieldName,
    dryingAgent: agent === undefined ? demo.dryingAgent : agent === "yes",
    settled,
  };
}

/** Links are written with a point: where a comma stands, its typist's page had not read it either. */
const LINK_MARKS = { marks: ".," } as const;

function readTexts(
  reader: LinkReader,
  crop: Inputs["crop"],
): { texts: Inputs["texts"]; set: ReadonlySet<string> } {
  const texts = { ...demoWith(crop).texts };
  const set = new Set<string>();
  for (const field of Object.keys(TEXT_FIELDS).filter(isTextField)) {
    const value = reader.take(field, LONGEST.text);
    if (value === undefined) continue;
    set.add(field);
    const marks = { ...(isNumberField(field) && value.includes(",") && LINK_MARKS) };
    if (value.endsWith(US_MARK))
      texts[field] = { text: value.slice(0, -US_MARK.length), units: "us", ...marks };
    else if (value.endsWith(METRIC_MARK))
      texts[field] = { text: value.slice(0, -METRIC_MARK.length), units: "metric", ...marks };
    else texts[field] = { text: value, units: "metric", ...marks };
  }
  return { texts, set };
}

function readRoutes(reader: LinkReader, crop: Inputs["crop"]): Inputs["routes"] {
  const routes: Record<RouteKey, RouteChoice> = { ...withUsualRoutes(DEMO_INPUTS.routes, crop) };
  const on = reader.take("routes");
  if (on !== undefined) {
    const words = on.split(",").filter((word) => word !== "");
    const strangers = words.filter((word) => !ROUTES.some((route) => route === word));
    for (const word of strangers) reader.unknown("routes", word);
    if (strangers.length < words.length || words.length === 0)
      for (const route of ROUTES) routes[route] = { ...routes[route], on: words.includes(route) };
  }
  for (const route of ROUTES) {
    const entry = ROUTE_CATALOGUE[route];
    const pack = reader.oneOf(`${route}.package`, entry.packages);
    const store = reader.oneOf(`${route}.store`, entry.stores);
    if (pack !== undefined) routes[route] = { ...routes[route], package: pack };
    if (store !== undefined) routes[route] = { ...routes[route], store };
  }
  return routes;
}

/**
 * The inputs as far as the page can answer them: what is wrong by itself goes back to the demonstration's, and where
 * the rest still makes no question, all of it does. A link never opens on a page without a picture.
 */
function answerable(wanted: Inputs, set: ReadonlySet<string>, problems: string[], speech: Speech): Inputs {
  let inputs = wanted;
  const left = new Set([...set, "routes"]);
  for (;;) {
    const { errors, question } = readInputs(inputs, speech);
    if (question !== null) return inputs;
    const wrong = (Object.keys(errors) as (keyof typeof errors)[]).filter((name) => left.has(name));
    if (wrong.length === 0) {
      const why = Object.entries(errors).map(([name, error]) => `${partWords(name) ?? name}: ${error}`);
      problems.push(`The link's fields make no whole question (${why.join(" ")}). All of the demo's stay.`);
      return DEMO_INPUTS;
    }
    for (const name of wrong) {
      left.delete(name);
      const what = `${errors[name]?.slice(0, 4 * LONGEST.shown)}`;
      problems.push(said(name, what, STAYS));
      inputs =
        name === "routes"
          ? { ...inputs, routes: withUsualRoutes(DEMO_INPUTS.routes, inputs.crop) }
          : name === "fieldName"
            ? { ...inputs, fieldName: DEMO_INPUTS.fieldName }
            : {
                ...inputs,
                texts: {
                  ...inputs.texts,
                  [name]: withTold(name, inputs.crop, `In the link: ${what} ${STAYS}`),
                },
              };
    }
  }
}

/** The demonstration's value, with a word on what stood in the link. */
function withTold(field: TextField, crop: Inputs["crop"], told: string): Typed {
  return { ...demoWith(crop).texts[field], told };
}

/** A number of a place as it is kept: in metric, whatever it was typed in. */
function placeText(field: PlaceField, value: string): string {
  if (field !== "elevationM" && field !== "windHeightM") return value;
  const us = value.endsWith(US_MARK);
  const number = readNumber(us ? value.slice(0, -US_MARK.length) : value);
  return number === null ? value : keptMetres(us ? fromPage(number, PLACE_QUANTITIES[field], "us") : number);
}

function readPlaceParts(reader: LinkReader, speech: Speech): Partial<PlaceTexts> {
  const place: Partial<Record<PlaceField, string>> = {};
  for (const field of PLACE_FIELDS) {
    const value = reader.take(field);
    if (value !== undefined) place[field] = placeText(field, value);
  }
  // Most links name no place: reading none would ask the browser about numbers of a locale, long before they are needed.
  if (Object.keys(place).length === 0) return {};
  const whole = { latitude: "", longitude: "", elevationM: "", windHeightM: "", timeZone: "", ...place };
  const { errors } = readPlace(whole, {}, speech);
  for (const field of PLACE_FIELDS) {
    if (place[field] === undefined || errors[field] === undefined) continue;
    reader.problems.push(said(field, errors[field], LEFT_OUT));
    delete place[field];
  }
  return place;
}

interface WeatherPart extends Pick<ReadLink, "sampleId" | "ownMark"> {
  readonly ofPlace: boolean;
}

function readWeather(reader: LinkReader): WeatherPart {
  const value = reader.take("weather");
  if (value === FORECAST_WEATHER) return { sampleId: null, ownMark: null, ofPlace: true };
  if (value?.startsWith(OWN_WEATHER))
    return { sampleId: null, ownMark: value.slice(OWN_WEATHER.length), ofPlace: false };
  if (value === undefined || SAMPLE_ID.test(value))
    return { sampleId: value ?? null, ownMark: null, ofPlace: false };
  reader.unknown("weather", value);
  return { sampleId: null, ownMark: null, ofPlace: false };
}

/** The place of a forecast: latitude and longitude it must have; the rest is found where it is left out. */
function forecastOf(reader: LinkReader, place: Partial<PlaceTexts>): ForecastPlace | null {
  const provider = reader.oneOf("provider", Object.keys(PROVIDER_LABELS).filter(isProvider)) ?? null;
  const [latitude, longitude] = [readDegrees(place.latitude ?? ""), readDegrees(place.longitude ?? "")];
  if (latitude === null || longitude === null) {
    reader.problems.push("The link's forecast needs latitude and longitude. The demo's weather is shown.");
    return null;
  }
  return {
    latitude,
    longitude,
    elevationM: readNumber(place.elevationM ?? ""),
    timeZone: place.timeZone ?? null,
    provider,
  };
}

function readSelection(reader: LinkReader): Selection | null {
  const row = reader.take("row");
  const route = reader.oneOf("route", ROUTES);
  const windowUtc = reader.take("window");
  if (row === undefined) {
    // Which cut it would be on nobody can tell.
    if (route !== undefined) reader.problems.push(said("route", "It stands without a row.", BEST_SHOWN));
    if (windowUtc !== undefined) reader.problems.push(said("window", "It stands without a row.", BEST_SHOWN));
    return null;
  }
  if (!ROW.test(row)) {
    reader.problems.push(said("row", `${quoted(row)} is not known.`, BEST_SHOWN));
    return null;
  }
  const selection = { optionId: row, route: route ?? null };
  if (windowUtc === undefined) return selection;
  if (route !== undefined && MOMENT.test(windowUtc)) return { ...selection, windowUtc };
  const what = route === undefined ? "It stands without a route." : `${quoted(windowUtc)} is not known.`;
  reader.problems.push(said("window", what, FIRST_SHOWN));
  return selection;
}

/**
 * Reads the query of an address. Whatever it holds, the page opens: what cannot be used is told in words.
 *
 * @param speech how numbers are told; without units each in those it was typed in
 */
export function readLink(search: string, speech: Speech = {}): ReadLink {
  const reader = new LinkReader(search);
  const { given } = reader;
  const { ofPlace, ...weather } = readWeather(reader);
  const selection = readSelection(reader);
  const compare = reader.oneOf("compare", PRESETS) ?? null;
  const choices = readChoices(reader);
  const { texts, set } = readTexts(reader, choices.crop);
  const routes = readRoutes(reader, choices.crop);
  const place = readPlaceParts(reader, speech);
  const forecast = ofPlace ? forecastOf(reader, place) : null;
  reader.rest();
  const { problems } = reader;
  const read = answerable({ ...choices, texts, routes }, set, problems, speech);
  // The demonstration's own object, by which the page knows that nothing of it was changed.
  const told = Object.values(read.texts).some((text) => text.told !== undefined);
  const inputs = isDemo(read) && !told ? DEMO_INPUTS : read;
  return { given, inputs, ...weather, forecast, selection, compare, place, problems };
}
