import type { RouteKey } from "../../model/harvest/index.ts";
import type { WeatherFile } from "../../model/weather/station/weather-file.ts";
import type { FeedInputs, SamplingInputs } from "../feed/feed-inputs.ts";
import type { MadeCut } from "../made/made-cuts.ts";
import type { PlaceErrors, PlaceField } from "../place/place-texts.ts";
import type { Learned, Reading } from "../reading/readings.ts";
import type { Forecast, ForecastFailure, ForecastPlace } from "../weather/forecast.ts";
import type { Observed, WeatherSource } from "../weather/source.ts";
import type { Tell, TellOdds } from "../worker/messages.ts";
import type { Selection } from "./choice.ts";
import type { Inputs, RouteChoice, TextField } from "./inputs.ts";
import type { Preset } from "./preset.ts";
import type { Kept, Preferences, Sample } from "./state.ts";

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
  /** A link asks for a comparison; null = it cannot be had. */
  | { readonly kind: "to-compare"; readonly preset: Preset | null }
  /** Weather that was not uploaded just now: kept by the device from an earlier visit. */
  | { readonly kind: "source"; readonly source: WeatherSource }
  | { readonly kind: "forecast-asked"; readonly place: ForecastPlace }
  | {
      readonly kind: "forecast-got";
      readonly place: ForecastPlace;
      readonly forecast: Forecast;
      readonly observed?: Observed | null;
    }
  /** What came after the forecast that is shown: the same with its members, or why it has none. */
  | { readonly kind: "members-got"; readonly place: ForecastPlace; readonly forecast: Forecast }
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
