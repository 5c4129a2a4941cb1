import { useCallback, useEffect, useRef } from "preact/hooks";
import type { Dispatch } from "../app/use-model.ts";
import { hour12Of, sayingOf } from "../format/manner.ts";
import type { State } from "../state/state.ts";
import { weatherAge } from "../states/age.ts";
import type { SpokenTo } from "../worker/messages.ts";
import { fetchWithMembers } from "./fetch-with-members.ts";
import type { Forecast, ForecastAnswer, ForecastPlace } from "./forecast.ts";
import type { Observed } from "./source.ts";

/** A forecast that was kept by the device is asked for anew when it is older than this, h. */
const ANEW_FROM_H = 1;

/** Services answer from what they keep: asking sooner than this brings nothing new. */
const NOT_BEFORE_MS = 15 * 60_000;

/** Asks for the forecast of a place, and joins it to what a station wrote where that is given. */
export type AskForecast = (place: ForecastPlace, observed?: Observed | null) => void;

/** The forecast behind the station's hours, or the reasons why they do not belong together. */
async function joined(
  { series, notes }: Forecast,
  observed: Observed,
  speech: SpokenTo,
): Promise<ForecastAnswer> {
  // Only who joins needs it: it stays out of the first look.
  const [{ joinWeather }, { weatherTelling }] = await Promise.all([
    import("../../model/weather/join.ts"),
    import("../../model/harvest/weather-telling.ts"),
  ]);
  const telling = weatherTelling(
    sayingOf({ ...speech, hour12: hour12Of(speech.locale) }),
    observed.series.site.timeZone,
  );
  const answer = joinWeather(observed.series, series, { telling });
  if (!answer.ok) {
    const lines = answer.issues.map(({ message }) => message);
    return {
      failure: { message: `${observed.name} and the forecast do not fit together.`, lines, fields: {} },
    };
  }
  const told = answer.value.notes.map((text, i) => ({ code: `join-${i}`, text }));
  return { forecast: { series: answer.value.series, notes: [...notes, ...told] } };
}

/**
 * Asks for forecasts, one at a time: a newer question ends the one before it. The forecast of a link is asked for at
 * once, one that the device kept as soon as there is a network.
 *
 * @param linked the place of the address the page was opened with; null = it names none
 */
export function useForecast(state: State, dispatch: Dispatch, linked: ForecastPlace | null): AskForecast {
  const running = useRef<AbortController | null>(null);
  const { locale } = state;
  const { units } = state.preferences;
  const speech = useRef<SpokenTo>({ units, locale });
  speech.current = { units, locale };
  const ask = useCallback<AskForecast>((place, observed = null) => {
    running.current?.abort();
    const stop = new AbortController();
    running.current = stop;
    dispatch({ kind: "forecast-asked", place });
    const withPast = (answer: ForecastAnswer) =>
      "forecast" in answer && observed !== null ? joined(answer.forecast, observed, speech.current) : answer;
    const work = async () => {
      const { first, late } = await fetchWithMembers(place, stop.signal);
      const answer = await withPast(first);
      if (stop.signal.aborted) return;
      if ("failure" in answer) {
        dispatch({ kind: "forecast-failed", place, failure: answer.failure });
        return;
      }
      dispatch({ kind: "forecast-got", place, forecast: answer.forecast, observed });
      const forecast = await late;
      if (!forecast) return;
      const whole = await withPast({ forecast });
      if (!stop.signal.aborted && "forecast" in whole)
        dispatch({ kind: "members-got", place, forecast: whole.forecast });
    };
    void work();
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
    ask(source.place, source.observed);
  }, [source, online, nowMs]);
  return ask;
}
