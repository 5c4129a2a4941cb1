import type { RouteKey } from "../../model/harvest/index.ts";
import type { Issue } from "../../model/limits.ts";
import type { WeatherFile } from "../../model/weather/station/weather-file.ts";
import type { FeedInputs, SamplingInputs } from "../feed/feed-inputs.ts";
import { decimalMarkOf } from "../format/manner.ts";
import type { MadeCut } from "../made/made-cuts.ts";
import type { Learned, Reading } from "../reading/readings.ts";
import type { Forecast, ForecastFailure, ForecastPlace } from "../weather/forecast.ts";
import type { Tell, TellOdds } from "../worker/messages.ts";
import type { Selection } from "./choice.ts";
import { type Inputs, type RouteChoice, TEXT_FIELDS, type TextField } from "./inputs.ts";
import type {
  Kept,
  Observed,
  Picture,
  PlaceErrors,
  PlaceField,
  Preferences,
  Sample,
  State,
  Upload,
  WeatherSource,
} from "./state.ts";

export type Choices = Omit<Inputs, "texts" | "routes">;

export type Action =
  /** With the sample to open on, where a link names one. */
  | { readonly kind: "samples"; readonly samples: readonly Sample[]; readonly first?: string | null }
  | { readonly kind: "no-samples"; readonly message: string }
  | { readonly kind: "sample"; readonly id: string }
  | { readonly kind: "text"; readonly field: TextField; readonly text: string }
  | { readonly kind: "choice"; readonly choice: Partial<Choices> }
  | { readonly kind: "route"; readonly route: RouteKey; readonly choice: Partial<RouteChoice> }
  /** Many at once: a pass dragged in time, a preset, a link. */
  | { readonly kind: "inputs"; readonly what: string; readonly inputs: Inputs }
  | { readonly kind: "undo" }
  | { readonly kind: "preferences"; readonly change: Partial<Preferences> }
  | { readonly kind: "now"; readonly nowMs: number }
  | { readonly kind: "online"; readonly online: boolean }
  /** The zone that belongs to the place that was typed. */
  | { readonly kind: "zone-found"; readonly timeZone: string }
  | { readonly kind: "keep"; readonly kept: Kept | null }
  /** Weather that was not uploaded just now: kept by the device from an earlier visit. */
  | { readonly kind: "source"; readonly source: WeatherSource }
  | { readonly kind: "forecast-asked"; readonly place: ForecastPlace }
  | {
      readonly kind: "forecast-got";
      readonly place: ForecastPlace;
      readonly forecast: Forecast;
      readonly observed?: Observed | null;
    }
  | { readonly kind: "forecast-failed"; readonly place: ForecastPlace; readonly failure: ForecastFailure }
  | { readonly kind: "place"; readonly field: PlaceField; readonly text: string }
  | { readonly kind: "place-errors"; readonly errors: PlaceErrors }
  /** What is wrong with the file, beside what is wrong with its place. */
  | { readonly kind: "file-error"; readonly error: string }
  /** Another file is picked: what was said about the one before does not hold for it. */
  | { readonly kind: "picked"; readonly errors: PlaceErrors }
  | { readonly kind: "answer"; readonly id: string; readonly choice: string }
  | { readonly kind: "checking"; readonly name: string }
  | {
      readonly kind: "checked";
      readonly name: string;
      readonly report: WeatherFile;
    }
  /** The file that was looked at is taken. */
  | { readonly kind: "use-file" }
  /** What was said of an earlier file with the same header. */
  | { readonly kind: "answers"; readonly answers: Readonly<Record<string, string>> }
  | { readonly kind: "select"; readonly selection: Selection | null }
  | { readonly kind: "asked"; readonly id: number; readonly source: WeatherSource; readonly inputs: Inputs }
  | { readonly kind: "learned"; readonly learned: Learned }
  /** All readings there are now: one was added, or taken back. */
  | { readonly kind: "readings"; readonly readings: readonly Reading[] }
  /** All cuts that lie now: one was made, or taken back. */
  | { readonly kind: "made"; readonly made: readonly MadeCut[] }
  | { readonly kind: "feed"; readonly feed: FeedInputs }
  | { readonly kind: "sampling"; readonly sampling: SamplingInputs }
  | { readonly kind: "told"; readonly tell: Tell | TellOdds };

/** The sample the page opens on: the one whose weather makes a choice hard. */
export const FIRST_SAMPLE = "showers-every-other-day";

function withSample(state: State, id: string): State {
  const sample = state.samples.find((one) => one.id === id);
  return sample ? { ...state, source: { kind: "sample", ...sample }, selection: null, kept: null } : state;
}

function withFirstSample(state: State, id: string): State {
  const known = (wanted: string) => state.samples.find((one) => one.id === wanted);
  const first = known(id) ?? known(FIRST_SAMPLE) ?? state.samples[0];
  return first ? withSample(state, first.id) : { ...state, samplesError: "The server has no samples." };
}

/** Changes that can be taken back; older ones are let go. */
const MOST_UNDOS = 50;

/** The inputs changed, with what they were before kept for undo. Typing on in one field is one change. */
function edited(state: State, what: string, inputs: Inputs): State {
  const typingOn = (what in TEXT_FIELDS || what === "choice fieldName") && state.past.at(-1)?.what === what;
  const past = typingOn ? state.past : [...state.past, { what, before: state.inputs }].slice(-MOST_UNDOS);
  return { ...state, inputs, past };
}

function withUpload(state: State, change: Partial<Upload>): State {
  return { ...state, upload: { ...state.upload, ...change } };
}

/** The forecast that came, with what it found of the place put where it can be corrected. */
function withForecast(
  state: State,
  place: ForecastPlace,
  { series, notes }: Forecast,
  observed: Observed | null,
): State {
  const { source, upload, selection, kept } = state;
  const { latitude, longitude, elevationM, timeZone } = series.site;
  // A newer forecast of the same place keeps what was chosen, as far as its board still has it.
  const again =
    source?.kind === "forecast" && source.place.latitude === latitude && source.place.longitude === longitude;
  const texts = {
    latitude: String(latitude),
    longitude: String(longitude),
    elevationM: String(Math.round(elevationM)),
    timeZone,
  };
  const next = withUpload(state, {
    place: { ...upload.place, ...texts },
    zoneFound: timeZone,
    errors: {},
  });
  return {
    ...next,
    source: { kind: "forecast", place, series, notes, observed },
    forecast: { asking: null, failed: null },
    selection: again ? selection : null,
    kept: again ? kept : null,
  };
}

function used(state: State, file: NonNullable<Upload["pending"]>): State {
  return { ...state, source: { kind: "upload", ...file }, selection: null, kept: null };
}

/** A file that gives no board is not used: the weather of the board stays, and the reason stands by the file. */
function refused(state: State, source: WeatherSource, issues: readonly Issue[]): State {
  const { picture, upload } = state;
  if (picture === null || source === picture.source || source.kind !== "upload")
    return { ...state, refused: issues };
  const why = issues.map(({ message }) => message).join("; ");
  const file = `${source.name} cannot be used: ${why}. The board keeps the weather it had.`;
  return {
    ...state,
    source: picture.source,
    upload: { ...upload, errors: { ...upload.errors, file }, problems: [], problemsOf: null },
  };
}

/** What the worker tells. Whatever does not belong to the newest question is dropped. */
function told(state: State, tell: Tell | TellOdds): State {
  const { asked, picture } = state;
  switch (tell.kind) {
    case "board": {
      if (asked?.id !== tell.id) return state;
      const next: Picture = {
        id: tell.id,
        source: asked.source,
        inputs: asked.inputs,
        request: tell.request,
        answer: tell.answer,
        course: tell.course,
        ribbons: tell.ribbons,
        ...(tell.bestBefore === undefined ? {} : { bestBefore: tell.bestBefore }),
      };
      const kept = tell.answer.options.some(({ id }) => id === state.selection?.optionId);
      const selection = kept ? state.selection : null;
      return { ...state, asked: null, picture: next, odds: null, selection, refused: [] };
    }
    case "refused":
      return asked?.id === tell.id ? refused({ ...state, asked: null }, asked.source, tell.issues) : state;
    case "tries":
      return state;
    case "odds-progress":
      return picture?.id === tell.id
        ? { ...state, odds: { id: tell.id, done: tell.done, of: tell.of } }
        : state;
    case "odds":
      // A board that was left meanwhile has its odds no more.
      return picture?.id === tell.id
        ? {
            ...state,
            odds: null,
            picture: {
              ...picture,
              answer: tell.answer,
              bestBefore: picture.bestBefore ?? picture.answer.best.overall,
              ribbons: { ...picture.ribbons, ...tell.ribbons },
            },
          }
        : state;
    case "odds-course":
    case "course":
      return picture?.id === tell.id ? { ...state, picture: { ...picture, course: tell.course } } : state;
  }
}

/** The page's one place of change: pure, so that every path can be tested without a page. */
export function reduce(state: State, action: Action): State {
  const { inputs, upload } = state;
  switch (action.kind) {
    case "samples": {
      const next = { ...state, samples: action.samples, samplesError: null };
      // While the forecast of a link is asked for, the demonstration would only flash up before it.
      return state.source || state.forecast.asking !== null
        ? next
        : withFirstSample(next, action.first ?? FIRST_SAMPLE);
    }
    case "no-samples":
      return { ...state, samplesError: action.message };
    case "sample":
      return withSample(state, action.id);
    case "text": {
      const mark = decimalMarkOf(state.locale) === "," ? { mark: "," as const } : {};
      const typed = { text: action.text, units: state.preferences.units, ...mark };
      return edited(state, action.field, { ...inputs, texts: { ...inputs.texts, [action.field]: typed } });
    }
    case "choice":
      return edited(state, `choice ${Object.keys(action.choice).join(" ")}`, { ...inputs, ...action.choice });
    case "inputs":
      return edited(state, action.what, action.inputs);
    case "undo": {
      const last = state.past.at(-1);
      return last ? { ...state, inputs: last.before, past: state.past.slice(0, -1) } : state;
    }
    case "preferences":
      return { ...state, preferences: { ...state.preferences, ...action.change } };
    case "now":
      return { ...state, nowMs: action.nowMs };
    case "zone-found": {
      const { timeZone } = upload.place;
      // A zone that was typed, kept or linked stays; one that was found goes with its place.
      if (timeZone.trim() !== "" && timeZone !== upload.zoneFound)
        return withUpload(state, { zoneFound: action.timeZone });
      const { timeZone: _mended, ...errors } = upload.errors;
      return withUpload(state, {
        place: { ...upload.place, timeZone: action.timeZone },
        zoneFound: action.timeZone,
        errors,
      });
    }
    case "online":
      return { ...state, online: action.online };
    case "keep":
      return { ...state, kept: action.kept };
    case "source":
      return { ...state, source: action.source, selection: null, kept: null };
    case "forecast-asked":
      return { ...state, forecast: { asking: action.place, failed: null } };
    case "forecast-got":
      return state.forecast.asking === action.place
        ? withForecast(state, action.place, action.forecast, action.observed ?? null)
        : state;
    case "forecast-failed": {
      if (state.forecast.asking !== action.place) return state;
      const { place, failure } = action;
      const next = { ...state, forecast: { asking: null, failed: { place, failure } } };
      const told = withUpload(next, { errors: { ...upload.errors, ...failure.fields } });
      return told.source === null && told.samples.length > 0 ? withFirstSample(told, FIRST_SAMPLE) : told;
    }
    case "route": {
      const route = { ...inputs.routes[action.route], ...action.choice };
      const routes = { ...inputs.routes, [action.route]: route };
      return edited(state, `route ${action.route}`, { ...inputs, routes });
    }
    case "place": {
      const { [action.field]: _mended, ...errors } = upload.errors;
      return withUpload(state, { place: { ...upload.place, [action.field]: action.text }, errors });
    }
    case "place-errors":
      return withUpload(state, { errors: action.errors, checking: null });
    case "file-error":
      return withUpload(state, { errors: { ...upload.errors, file: action.error } });
    case "picked":
      return withUpload(state, {
        errors: action.errors,
        questions: [],
        answers: {},
        report: null,
        pending: null,
      });
    case "answers":
      return withUpload(state, { answers: action.answers });
    case "answer":
      return withUpload(state, { answers: { ...upload.answers, [action.id]: action.choice } });
    case "checking":
      return withUpload(state, { checking: action.name, errors: {}, problems: [], problemsOf: null });
    case "checked": {
      if (upload.checking !== action.name) return state;
      const { name, report } = action;
      const { series, problems, questions, counts } = report;
      const file = series === null ? null : { name, series, missing: counts.missing };
      const looked = file !== null || report.preview.length > 0 || questions.length > 0;
      // Reading takes nothing: whoever chose the file looks at what came of it first.
      return withUpload(state, {
        checking: null,
        problems,
        questions,
        problemsOf: name,
        report: looked ? report : null,
        pending: file,
      });
    }
    case "use-file":
      return upload.pending === null
        ? state
        : used(withUpload(state, { pending: null, report: null }), upload.pending);
    case "select":
      return { ...state, selection: action.selection };
    case "asked":
      return { ...state, asked: { id: action.id, source: action.source, inputs: action.inputs } };
    case "learned":
      return { ...state, learned: action.learned };
    case "readings":
      return { ...state, readings: action.readings };
    case "made":
      return { ...state, made: action.made };
    case "feed":
      return { ...state, feed: action.feed };
    case "sampling":
      return { ...state, sampling: action.sampling };
    case "told":
      return told(state, action.tell);
  }
}
