import { useCallback, useEffect, useRef } from "preact/hooks";
import type { Dispatch } from "../app/use-model.ts";
import type { State } from "../state/state.ts";
import { weatherAge } from "../states/age.ts";
import { type ForecastPlace, fetchForecast } from "./forecast.ts";

/** A forecast that was kept by the device is asked for anew when it is older than this, h. */
const ANEW_FROM_H = 1;

/** Services answer from what they keep: asking sooner than this brings nothing new. */
const NOT_BEFORE_MS = 15 * 60_000;

export type AskForecast = (place: ForecastPlace) => void;

/**
 * Asks for forecasts, one at a time: a newer question ends the one before it. The forecast of a link is asked for at
 * once, one that the device kept as soon as there is a network.
 *
 * @param linked the place of the address the page was opened with; null = it names none
 */
export function useForecast(state: State, dispatch: Dispatch, linked: ForecastPlace | null): AskForecast {
  const running = useRef<AbortController | null>(null);
  const ask = useCallback<AskForecast>((place) => {
    running.current?.abort();
    const stop = new AbortController();
    running.current = stop;
    dispatch({ kind: "forecast-asked", place });
    void fetchForecast(place, stop.signal).then((answer) => {
      if (stop.signal.aborted) return;
      if ("forecast" in answer) dispatch({ kind: "forecast-got", place, forecast: answer.forecast });
      else dispatch({ kind: "forecast-failed", place, failure: answer.failure });
    });
  }, []);

  useEffect(() => {
    if (linked !== null) ask(linked);
    return () => running.current?.abort();
  }, []);

  const { source, online, nowMs } = state;
  const lastMs = useRef(Number.NEGATIVE_INFINITY);
  useEffect(() => {
    if (source?.kind !== "forecast" || !online || nowMs - lastMs.current < NOT_BEFORE_MS) return;
    const { hours } = weatherAge(source.series, nowMs);
    const fetchedMs = Date.parse(source.series.fetchedUtc ?? "");
    const sinceH = Number.isNaN(fetchedMs) ? hours : (nowMs - fetchedMs) / 3_600_000;
    if (sinceH !== null && sinceH < ANEW_FROM_H) return;
    lastMs.current = nowMs;
    ask(source.place);
  }, [source, online, nowMs]);
  return ask;
}
