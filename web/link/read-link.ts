import { ROUTE_CATALOGUE, ROUTES, type RouteKey } from "../../model/harvest/index.ts";
import type { Selection } from "../state/choice.ts";
import {
  DEMO_INPUTS,
  GATE_KEYS,
  type Inputs,
  type RouteChoice,
  TEXT_FIELDS,
  type TextField,
} from "../state/inputs.ts";
import { readNumber } from "../state/numbers.ts";
import { readInputs } from "../state/read-inputs.ts";
import { withUsualRoutes } from "../state/routes-of-crop.ts";
import type { PlaceField, PlaceTexts } from "../state/state.ts";
import { type ForecastPlace, isProvider, PROVIDER_LABELS } from "../weather/forecast.ts";
import { readPlace } from "../weather/upload.ts";
import { isDemo } from "./link-of.ts";
import {
  FORECAST_WEATHER,
  LINK_CHOICE_NAMES,
  LINK_CHOICES,
  LONGEST,
  METRIC_MARK,
  MOST_PARTS,
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
  readonly place: Partial<PlaceTexts>;
  /** What could not be used, in words. */
  readonly problems: readonly string[];
}

const STAYS = "the demo's stays";
const ROW = /^[\w:/.+-]+$/;
const SAMPLE_ID = /^[a-z0-9][a-z0-9-]*$/;

/** A value as it is quoted in a sentence. */
function quoted(value: string): string {
  const short = [...value].slice(0, LONGEST.shown).join("");
  return short === value ? `"${value}"` : `"${short}..." (${value.length} characters)`;
}

function isTextField(name: string): name is TextField {
  return Object.hasOwn(TEXT_FIELDS, name);
}

/** Reads the parts of a link one by one and keeps what is wrong with each. */
class LinkReader {
  readonly problems: string[] = [];
  readonly #parts = new Map<string, string>();

  constructor(search: string) {
    const all = [...new URLSearchParams(search)];
    for (const [name, value] of all.slice(0, MOST_PARTS)) {
      if (this.#parts.has(name)) this.problems.push(`link: ${quoted(name)} stands twice; the first is used`);
      else this.#parts.set(name, value);
    }
    if (all.length > MOST_PARTS)
      this.problems.push(`link: has ${all.length} parts; only the first ${MOST_PARTS} are read`);
  }

  get given(): boolean {
    return this.#parts.size > 0;
  }

  /** A part, taken out; what is left in the end is not known. */
  take(name: string, longest: number = LONGEST.other): string | undefined {
    const value = this.#parts.get(name);
    this.#parts.delete(name);
    if (value === undefined || value.length <= longest) return value;
    this.problems.push(`link: ${name} has ${value.length} characters, at most ${longest}; ${STAYS}`);
    return undefined;
  }

  oneOf<T extends string>(name: string, known: readonly T[]): T | undefined {
    const value = this.take(name);
    const found = known.find((each) => each === value);
    if (value !== undefined && found === undefined) this.unknown(name, value);
    return found;
  }

  unknown(name: string, value: string): void {
    this.problems.push(`link: ${name} got ${quoted(value)}, not known; ${STAYS}`);
  }

  rest(): void {
    for (const name of this.#parts.keys()) this.problems.push(`link: ${quoted(name)} is not known; left out`);
  }
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
    fieldName: reader.take("field", LONGEST.fieldName * 2) ?? demo.fieldName,
    dryingAgent: agent === undefined ? demo.dryingAgent : agent === "yes",
    settled,
  };
}

function readTexts(reader: LinkReader): { texts: Inputs["texts"]; set: ReadonlySet<string> } {
  const texts = { ...DEMO_INPUTS.texts };
  const set = new Set<string>();
  for (const field of Object.keys(TEXT_FIELDS).filter(isTextField)) {
    const value = reader.take(field, LONGEST.text);
    if (value === undefined) continue;
    set.add(field);
    if (value.endsWith(US_MARK)) texts[field] = { text: value.slice(0, -US_MARK.length), units: "us" };
    else if (value.endsWith(METRIC_MARK))
      texts[field] = { text: value.slice(0, -METRIC_MARK.length), units: "metric" };
    else texts[field] = { text: value, units: "metric" };
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
function answerable(wanted: Inputs, set: ReadonlySet<string>, problems: string[]): Inputs {
  let inputs = wanted;
  const left = new Set([...set, "routes"]);
  for (;;) {
    const { errors, question } = readInputs(inputs);
    if (question !== null) return inputs;
    const wrong = (Object.keys(errors) as (keyof typeof errors)[]).filter((name) => left.has(name));
    if (wrong.length === 0) {
      const why = Object.entries(errors).map(([name, error]) => `${name}: ${error}`);
      problems.push(`link: its fields make no whole question (${why.join(" ")}); all of the demo's stay`);
      return DEMO_INPUTS;
    }
    for (const name of wrong) {
      left.delete(name);
      problems.push(
        `link: ${name}: ${errors[name]?.slice(0, 4 * LONGEST.shown)} ${STAYS.replace("t", "T")}.`,
      );
      inputs =
        name === "routes"
          ? { ...inputs, routes: withUsualRoutes(DEMO_INPUTS.routes, inputs.crop) }
          : { ...inputs, texts: { ...inputs.texts, [name]: DEMO_INPUTS.texts[name] } };
    }
  }
}

function readPlaceParts(reader: LinkReader): Partial<PlaceTexts> {
  const place: Partial<Record<PlaceField, string>> = {};
  for (const field of PLACE_FIELDS) {
    const value = reader.take(field);
    if (value !== undefined) place[field] = value;
  }
  const whole = { latitude: "", longitude: "", elevationM: "", windHeightM: "", timeZone: "", ...place };
  const { errors } = readPlace(whole);
  for (const field of PLACE_FIELDS) {
    if (place[field] === undefined || errors[field] === undefined) continue;
    reader.problems.push(`link: ${field}: ${errors[field]} It is left out.`);
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
  const numberOf = (field: PlaceField) => readNumber(place[field] ?? "");
  const [latitude, longitude] = [numberOf("latitude"), numberOf("longitude")];
  if (latitude === null || longitude === null) {
    reader.problems.push("link: its forecast needs latitude and longitude; the demo's weather is shown");
    return null;
  }
  return {
    latitude,
    longitude,
    elevationM: numberOf("elevationM"),
    timeZone: place.timeZone ?? null,
    provider,
  };
}

function readSelection(reader: LinkReader): Selection | null {
  const row = reader.take("row");
  const route = reader.oneOf("route", ROUTES);
  if (row === undefined) return null;
  if (ROW.test(row)) return { optionId: row, route: route ?? null };
  reader.problems.push(`link: row got ${quoted(row)}, not known; the best row is shown`);
  return null;
}

/** Reads the query of an address. Whatever it holds, the page opens: what cannot be used is told in words. */
export function readLink(search: string): ReadLink {
  const reader = new LinkReader(search);
  const { given } = reader;
  const { ofPlace, ...weather } = readWeather(reader);
  const selection = readSelection(reader);
  const choices = readChoices(reader);
  const { texts, set } = readTexts(reader);
  const routes = readRoutes(reader, choices.crop);
  const place = readPlaceParts(reader);
  const forecast = ofPlace ? forecastOf(reader, place) : null;
  reader.rest();
  const { problems } = reader;
  const read = answerable({ ...choices, texts, routes }, set, problems);
  // The demonstration's own object, by which the page knows that nothing of it was changed.
  const inputs = isDemo(read) ? DEMO_INPUTS : read;
  return { given, inputs, ...weather, forecast, selection, place, problems };
}
