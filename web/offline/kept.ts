import { checkSeries, type WeatherSeries } from "../../model/weather/index.ts";
import { linkOf } from "../link/link-of.ts";
import { type ReadLink, readLink } from "../link/read-link.ts";
import type { PlaceTexts } from "../place/place-texts.ts";
import type { State } from "../state/state.ts";
import { type ForecastPlace, isProvider, type Note } from "../weather/forecast.ts";
import type { Observed, WeatherSource } from "../weather/source.ts";

/** What the device keeps of the last visit. The fields are kept as a link: one way to write them, one to read them. */
export interface KeptVisit {
  readonly version: 1;
  readonly savedMs: number;
  readonly search: string;
  readonly place: PlaceTexts;
  readonly source: WeatherSource;
}

export interface ReadKept {
  readonly savedMs: number;
  readonly source: WeatherSource;
  readonly link: ReadLink;
  readonly place: Partial<PlaceTexts>;
}

/** What there is to keep of a state: its weather with the fields that were answered with it. Null before any answer. */
export function visitOf(
  { picture, upload }: Pick<State, "picture" | "upload">,
  nowMs: number,
): KeptVisit | null {
  if (picture === null) return null;
  const { source, inputs } = picture;
  const nowhere = { latitude: "", longitude: "", elevationM: "", windHeightM: "", timeZone: "" };
  const search = linkOf({ inputs, source, selection: null, place: nowhere }, true);
  return { version: 1, savedMs: nowMs, search, place: upload.place, source };
}

/**
 * Whether a state is kept over what was kept before: an own file or a forecast always, a sample only where somebody
 * worked on it, and never over an own file, which nobody could get back, or a forecast, which a field may be without.
 */
export function worthKeeping(
  { picture, past }: Pick<State, "picture" | "past">,
  before: ReadKept | null,
): boolean {
  if (picture === null) return false;
  if (picture.source.kind !== "sample") return true;
  return past.length > 0 && (before === null || before.source.kind === "sample");
}

type Fields = Readonly<Record<string, unknown>>;

function isRecord(value: unknown): value is Fields {
  return typeof value === "object" && value !== null;
}

function isText(value: unknown): value is string {
  return typeof value === "string" && value.length < 1000;
}

function readForecastPlaceOf(value: unknown): ForecastPlace | null {
  if (!isRecord(value)) return null;
  const { latitude, longitude, elevationM, timeZone, provider } = value;
  if (typeof latitude !== "number" || typeof longitude !== "number") return null;
  return {
    latitude,
    longitude,
    elevationM: typeof elevationM === "number" ? elevationM : null,
    timeZone: isText(timeZone) ? timeZone : null,
    provider: isText(provider) && isProvider(provider) ? provider : null,
  };
}

function readObserved(value: unknown): Observed | null {
  if (!isRecord(value) || !isText(value.name) || !isRecord(value.series)) return null;
  try {
    const series = value.series as unknown as WeatherSeries;
    return checkSeries(series).issues.length === 0 ? { name: value.name, series } : null;
  } catch {
    return null;
  }
}

function readNotes(value: unknown): Note[] {
  if (!Array.isArray(value)) return [];
  return value.flatMap((note: unknown) =>
    isRecord(note) && isText(note.code) && isText(note.text) ? [{ code: note.code, text: note.text }] : [],
  );
}

/** Weather that a device held, or null where it is none. Trusts nothing it reads. */
export function readSource(value: unknown): WeatherSource | null {
  if (
    !isRecord(value) ||
    !isRecord(value.series) ||
    !isRecord(value.series.hours) ||
    !isRecord(value.series.site)
  )
    return null;
  const series = value.series as unknown as WeatherSeries;
  try {
    if (checkSeries(series).issues.length > 0) return null;
  } catch {
    // Not even the shape of a series.
    return null;
  }
  const { kind, id, title, name, missing } = value;
  if (kind === "sample" && typeof id === "string" && typeof title === "string")
    return { kind, id, title, series };
  if (kind === "upload" && typeof name === "string" && typeof missing === "number")
    return { kind, name, missing, series };
  const asked = kind === "forecast" ? readForecastPlaceOf(value.place) : null;
  if (asked !== null)
    return {
      kind: "forecast",
      place: asked,
      series,
      notes: readNotes(value.notes),
      observed: readObserved(value.observed),
    };
  return null;
}

/** What was kept, or null where it is none or was kept by another version of the page. Trusts nothing it reads. */
export function readKept(value: unknown): ReadKept | null {
  if (!isRecord(value) || value.version !== 1) return null;
  const { savedMs, search, place } = value;
  const source = readSource(value.source);
  if (
    source === null ||
    typeof savedMs !== "number" ||
    !Number.isFinite(savedMs) ||
    typeof search !== "string"
  )
    return null;
  const texts: Partial<Record<keyof PlaceTexts, string>> = {};
  if (isRecord(place)) {
    for (const field of ["latitude", "longitude", "elevationM", "windHeightM", "timeZone"] as const) {
      const text = place[field];
      if (typeof text === "string" && text.length < 100) texts[field] = text;
    }
  }
  return { savedMs, source, link: readLink(search), place: texts };
}
