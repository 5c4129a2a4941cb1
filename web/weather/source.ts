import type { WeatherSeries } from "../../model/weather/index.ts";
import type { ForecastPlace, Note } from "./forecast.ts";

/** Where the weather of the page comes from, with all that it brought. */
export type WeatherSource =
  | { readonly kind: "sample"; readonly id: string; readonly title: string; readonly series: WeatherSeries }
  | {
      readonly kind: "upload";
      readonly name: string;
      readonly series: WeatherSeries;
      readonly missing: number;
    }
  | {
      readonly kind: "forecast";
      readonly place: ForecastPlace;
      readonly series: WeatherSeries;
      readonly notes: readonly Note[];
      /** The station's file that the forecast was joined to; null where it stands alone. */
      readonly observed: Observed | null;
    };

/** What a station wrote, kept so that a newer forecast can be joined to it. */
export interface Observed {
  readonly name: string;
  readonly series: WeatherSeries;
}
