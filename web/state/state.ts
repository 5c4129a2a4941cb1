import type { DrydownAnswer } from "../../model/drying/index.ts";
import type { WindowsAnswer, WindowsRequest } from "../../model/harvest/index.ts";
import type { Issue } from "../../model/limits.ts";
import type { CsvProblem, CsvQuestion, WeatherSeries } from "../../model/weather/index.ts";
import type { RowCourse } from "../worker/messages.ts";
import type { Selection } from "./choice.ts";
import { DEMO_INPUTS, type Inputs } from "./inputs.ts";

/** Invented weather that comes with the program. */
export interface Sample {
  readonly id: string;
  readonly title: string;
  readonly series: WeatherSeries;
}

export type WeatherSource =
  | { readonly kind: "sample"; readonly id: string; readonly title: string; readonly series: WeatherSeries }
  | {
      readonly kind: "upload";
      readonly name: string;
      readonly series: WeatherSeries;
      readonly missing: number;
    };

/** What a file does not say itself, as typed. */
export type PlaceField = "latitude" | "longitude" | "elevationM" | "timeZone" | "windHeightM";
export type PlaceTexts = Readonly<Record<PlaceField, string>>;
export type PlaceErrors = Readonly<Partial<Record<PlaceField | "file", string>>>;

export interface Upload {
  readonly place: PlaceTexts;
  readonly errors: PlaceErrors;
  /** Name of the file that is being checked, null when none is. */
  readonly checking: string | null;
  /** What the last file leaves open, and what the user said to it, by the question's id. */
  readonly questions: readonly CsvQuestion[];
  readonly answers: Readonly<Record<string, string>>;
  /** What was found in the last file, errors and warnings. */
  readonly problems: readonly CsvProblem[];
  readonly problemsOf: string | null;
}

/** The last good answer with the question it answers: it stays until a better one is there. */
export interface Picture {
  readonly id: number;
  readonly source: WeatherSource;
  readonly inputs: Inputs;
  readonly request: WindowsRequest;
  readonly answer: WindowsAnswer;
  readonly course: RowCourse | null;
  /** Courses by option id, as far as they are worked out. */
  readonly ribbons: Readonly<Record<string, DrydownAnswer>>;
}

export interface State {
  readonly samples: readonly Sample[];
  readonly samplesError: string | null;
  readonly source: WeatherSource | null;
  readonly inputs: Inputs;
  readonly upload: Upload;
  readonly selection: Selection | null;
  /** The question under work, by its id. */
  readonly asked: { readonly id: number; readonly source: WeatherSource; readonly inputs: Inputs } | null;
  readonly picture: Picture | null;
  /** Why the last question got no answer. */
  readonly refused: readonly Issue[];
}

export function firstState(timeZone: string): State {
  return {
    samples: [],
    samplesError: null,
    source: null,
    inputs: DEMO_INPUTS,
    upload: {
      place: { latitude: "", longitude: "", elevationM: "", timeZone, windHeightM: "" },
      errors: {},
      checking: null,
      questions: [],
      answers: {},
      problems: [],
      problemsOf: null,
    },
    selection: null,
    asked: null,
    picture: null,
    refused: [],
  };
}
