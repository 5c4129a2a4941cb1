import type { DrydownAnswer } from "../../model/drying/index.ts";
import type { CutOptionAnswer, RouteKey, WindowsAnswer, WindowsRequest } from "../../model/harvest/index.ts";
import type { Issue } from "../../model/limits.ts";
import type { CsvProblem, CsvQuestion, WeatherSeries } from "../../model/weather/index.ts";
import type { WeatherFile } from "../../model/weather/station/weather-file.ts";
import type { FeedInputs, SamplingInputs } from "../feed/feed-inputs.ts";
import type { Units } from "../format/units.ts";
import type { MadeCut } from "../made/made-cuts.ts";
import type { PlaceErrors, PlaceTexts } from "../place/place-texts.ts";
import type { Learned, Reading } from "../reading/readings.ts";
import type { ForecastFailure, ForecastPlace } from "../weather/forecast.ts";
import type { WeatherSource } from "../weather/source.ts";
import type { RowCourse } from "../worker/messages.ts";
import type { SwathRibbon } from "../worker/ribbons.ts";
import type { Selection } from "./choice.ts";
import type { Inputs } from "./inputs.ts";
import type { Preset } from "./preset.ts";

/** Invented weather that comes with the program. */
export interface Sample {
  readonly id: string;
  readonly title: string;
  readonly series: WeatherSeries;
}

/** The forecast that is being asked for, and what came of the last question where it failed. */
export interface ForecastState {
  readonly asking: ForecastPlace | null;
  readonly failed: { readonly place: ForecastPlace; readonly failure: ForecastFailure } | null;
}

/** Light by the device's own setting, or as chosen on this device. */
export type Theme = "system" | "day" | "night";

/** What is chosen once and remembered by the device. */
export interface Preferences {
  readonly units: Units;
  readonly theme: Theme;
  /** Draws of one forecast's chances, for a device too slow for the model's own number; absent = that. */
  readonly draws?: number | undefined;
}

/** A cut kept aside, as it was, to be compared with what is chosen now. */
export interface Kept {
  readonly source: WeatherSource;
  readonly inputs: Inputs;
  readonly request: WindowsRequest;
  readonly option: CutOptionAnswer;
  readonly route: RouteKey | null;
  readonly course: DrydownAnswer;
  /** The question that it answers, where it was worked out from the cut chosen then: a link can ask it again. */
  readonly against?: { readonly preset: Preset; readonly inputs: Inputs; readonly optionId: string };
}

export interface Upload {
  readonly place: PlaceTexts;
  /** The zone that was found for the place; null before one was. */
  readonly zoneFound: string | null;
  readonly errors: PlaceErrors;
  /** Name of the file that is being checked, null when none is. */
  readonly checking: string | null;
  /** What the last file leaves open, and what the user said to it, by the question's id. */
  readonly questions: readonly CsvQuestion[];
  readonly answers: Readonly<Record<string, string>>;
  /** What was found in the last file, errors and warnings. */
  readonly problems: readonly CsvProblem[];
  readonly problemsOf: string | null;
  /** What was understood of the last file; null before one was read, and for canonical files. */
  readonly report: WeatherFile | null;
  /** A file that can be used once its reader has looked at what was understood. */
  readonly pending: {
    readonly name: string;
    readonly series: WeatherSeries;
    readonly missing: number;
  } | null;
}

/** The last good answer with the question it answers: it stays until a better one is there. */
export interface Picture {
  readonly id: number;
  readonly source: WeatherSource;
  readonly inputs: Inputs;
  readonly request: WindowsRequest;
  readonly answer: WindowsAnswer;
  /** First place of this board before its chances were counted; absent until they are. */
  readonly bestBefore?: WindowsAnswer["best"]["overall"];
  readonly course: RowCourse | null;
  /** The drying swath of each row, by option id. */
  readonly ribbons: Readonly<Record<string, SwathRibbon>>;
}

/** What was changed last, so that one undo takes back a whole word and not a letter. */
export interface Edit {
  readonly what: string;
  readonly before: Inputs;
}

export interface State {
  readonly preferences: Preferences;
  /** BCP 47 tag of the browser: numbers and the 12 or 24 hour clock follow it. */
  readonly locale: string;
  /** The page's clock, UTC ms; moved once a minute. */
  readonly nowMs: number;
  readonly online: boolean;
  /** Changes that can be taken back, the latest last. */
  readonly past: readonly Edit[];
  readonly kept: Kept | null;
  /** What a link asks to be compared with the chosen cut, until it is worked out; null = nothing. */
  readonly toCompare: Preset | null;
  readonly samples: readonly Sample[];
  readonly samplesError: string | null;
  readonly source: WeatherSource | null;
  readonly inputs: Inputs;
  readonly upload: Upload;
  readonly forecast: ForecastState;
  readonly selection: Selection | null;
  /** The question under work, by its id. */
  readonly asked: { readonly id: number; readonly source: WeatherSource; readonly inputs: Inputs } | null;
  readonly picture: Picture | null;
  /** How far the odds of the picture are, by its id; null while none are under work. */
  readonly odds: { readonly id: number; readonly done: number; readonly of: number } | null;
  /** What was measured on the cuts of the last days. */
  readonly readings: readonly Reading[];
  /** Cuts that were made in the last days: they lie. */
  readonly made: readonly MadeCut[];
  /** What was learned of the rate by field and crop, by the readings above too: `rateBeside` says what counts beside them. */
  readonly learned: Learned;
  /** What was typed into the feed check and its sampling plan; null = nothing yet: an invented example stands there. */
  readonly feed: FeedInputs | null;
  readonly sampling: SamplingInputs | null;
  /** Why the last question got no answer. */
  readonly refused: readonly Issue[];
}

/** Stands for the farm's zone until there is weather: a zone that everything can be shown in. */
export const UNKNOWN_ZONE = "UTC";

/** What the page knows before it has asked anything. */
export interface Start {
  /** What stands in the field of the farm's zone: nothing until its place tells it, or its owner. */
  readonly timeZone: string;
  readonly locale: string;
  readonly nowMs: number;
  readonly online: boolean;
  readonly preferences: Preferences;
  readonly inputs: Inputs;
  readonly learned?: Learned;
  readonly readings?: readonly Reading[];
  readonly made?: readonly MadeCut[];
}

export function firstState(start: Start): State {
  const { timeZone, locale, nowMs, online, preferences, inputs } = start;
  return {
    preferences,
    locale,
    nowMs,
    online,
    past: [],
    kept: null,
    toCompare: null,
    samples: [],
    samplesError: null,
    source: null,
    inputs,
    upload: {
      place: { latitude: "", longitude: "", elevationM: "", timeZone, windHeightM: "" },
      zoneFound: null,
      errors: {},
      checking: null,
      questions: [],
      answers: {},
      problems: [],
      problemsOf: null,
      report: null,
      pending: null,
    },
    forecast: { asking: null, failed: null },
    selection: null,
    asked: null,
    picture: null,
    odds: null,
    readings: start.readings ?? [],
    made: start.made ?? [],
    learned: start.learned ?? {},
    feed: null,
    sampling: null,
    refused: [],
  };
}
