import type { Forecast, ForecastPlace } from "../weather/forecast.ts";
import type { Observed } from "../weather/source.ts";
import type { Action } from "./action.ts";
import { type Inputs, TEXT_FIELDS } from "./inputs.ts";
import type { State, Upload } from "./state.ts";
import { told } from "./told.ts";
import { typedNow } from "./typed.ts";

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
      const typed = typedNow(action.text, { units: state.preferences.units, locale: state.locale });
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
      return { ...state, kept: action.kept, toCompare: null };
    case "to-compare":
      return { ...state, toCompare: action.preset };
    case "source":
      return { ...state, source: action.source, selection: null, kept: null };
    case "forecast-asked":
      return { ...state, forecast: { asking: action.place, failed: null } };
    case "forecast-got":
      return state.forecast.asking === action.place
        ? withForecast(state, action.place, action.forecast, action.observed ?? null)
        : state;
    case "members-got": {
      const { place, forecast } = action;
      const { source } = state;
      // Other weather may have been taken meanwhile.
      return source?.kind === "forecast" && source.place === place
        ? { ...state, source: { ...source, ...forecast } }
        : state;
    }
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
