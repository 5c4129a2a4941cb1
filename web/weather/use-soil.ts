import { useEffect, useRef, useState } from "preact/hooks";
import type { SoilWetness } from "../../model/weather/soil-wetness.ts";
import type { Dispatch } from "../app/use-model.ts";
import type { State } from "../state/state.ts";

export type SoilOfWeather = Extract<SoilWetness, { readonly found: true }>;

/**
 * How wet the last days' rain and evaporation leave the ground, where the weather tells it. It is taken once for each
 * forecast, as a change that can be undone; a ground that was set by hand stays.
 */
export function useSoil({ source, past, nowMs }: State, dispatch: Dispatch): SoilOfWeather | null {
  const [soil, setSoil] = useState<SoilOfWeather | null>(null);
  const taken = useRef<unknown>(null);
  useEffect(() => {
    setSoil(null);
    // A file is looked at from its first hour on: nothing of it lies before.
    if (source?.kind !== "forecast") return;
    let gone = false;
    // Only a forecast needs it: it stays out of the first look.
    void import("../../model/weather/soil-wetness.ts").then(({ soilWetness }) => {
      if (gone) return;
      const found = soilWetness(source.series, nowMs);
      if (!found.found) return;
      setSoil(found);
      if (taken.current === source || past.some(({ what }) => what === "choice soil")) return;
      taken.current = source;
      dispatch({ kind: "choice", choice: { soil: found.soil } });
    });
    return () => {
      gone = true;
    };
  }, [source]);
  return soil;
}
