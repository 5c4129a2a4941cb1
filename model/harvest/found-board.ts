import type { PreparedWeather } from "../weather/hourly.ts";
import type { CutOptionAnswer, MadeLeftOutAnswer } from "./answer.ts";
import type { HazardCalendars } from "./hazard-reasons.ts";
import type { ReadOptions } from "./read-cuts.ts";
import type { WindowsRequest } from "./request.ts";
import type { Settled } from "./settle.ts";
import type { FoundRoute } from "./swath-route.ts";

/** An option with its routes found but not ranked. */
export interface FoundOption {
  readonly head: Omit<CutOptionAnswer, "routes">;
  readonly routes: readonly FoundRoute[];
}

/** A board whose routes are found: what the answer and the odds are made from. */
export interface Board {
  readonly request: WindowsRequest;
  readonly prepared: PreparedWeather;
  readonly settled: Settled;
  readonly calendars: HazardCalendars;
  readonly options: readonly FoundOption[];
  readonly cuts: { readonly offered: number; readonly outsideWork: number };
  /** Cuts that something was measured on, and where their routes opened without that. */
  readonly read: ReadOptions;
  readonly before: ReadonlyMap<string, string | null>;
  /** Cuts that were made before the weather begins. */
  readonly leftOut: readonly MadeLeftOutAnswer[];
}
