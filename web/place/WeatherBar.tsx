import { useRef, useState } from "preact/hooks";
import type { Dispatch } from "../app/use-model.ts";
import type { Speech } from "../state/field-reader.ts";
import type { State } from "../state/state.ts";
import { type ForecastPlace, providerLabel } from "../weather/forecast.ts";
import type { AskForecast } from "../weather/use-forecast.ts";
import { Asking, ForecastTrouble } from "./ForecastTrouble.tsx";
import { go } from "./go.ts";
import { spotText } from "./spot.ts";
import { type Elsewhere, UsePlace } from "./UsePlace.tsx";
import "./place.css";

export interface WeatherBarProps extends Partial<Elsewhere> {
  readonly state: Pick<State, "source" | "upload" | "forecast" | "nowMs" | "inputs">;
  readonly speech?: Speech;
  readonly dispatch: Dispatch;
  readonly ask: AskForecast;
}

function words(source: NonNullable<State["source"]>, speech: Speech): string {
  if (source.kind === "sample") return "Invented demonstration farm and weather";
  if (source.kind === "upload") return `Your file: ${source.name}`;
  const forecast = `orecast for ${spotText(source.series.site, speech)}, ${providerLabel(source.series.provider)}`;
  return source.observed === null ? `F${forecast}` : `${source.observed.name}, then the f${forecast}`;
}

/** A station's file that ends longer ago than this has no forecast that goes on from it, ms. */
const JOINS_WITHIN_MS = 20 * 24 * 3_600_000;

/** The place of a file whose end a forecast can go on from; null where it is too long ago, or still to come. */
function joinable(source: NonNullable<State["source"]>, nowMs: number): ForecastPlace | null {
  if (source.kind !== "upload") return null;
  const lastMs = Date.parse(source.series.hours.startUtc.at(-1) ?? "");
  if (!(lastMs <= nowMs && nowMs - lastMs < JOINS_WITHIN_MS)) return null;
  return { ...source.series.site, provider: null };
}

/** Whose weather the page shows, over everything else, with the way to the own place. */
export function WeatherBar({
  state,
  speech = {},
  dispatch,
  ask,
  ownId = "own",
  samplesId = "samples",
}: WeatherBarProps) {
  const { source, forecast } = state;
  const [open, setOpen] = useState(false);
  const button = useRef<HTMLButtonElement>(null);
  const close = () => {
    setOpen(false);
    button.current?.focus();
  };
  const elsewhere = { ownId, samplesId };
  const invented = source?.kind === "sample";
  const follows = source && joinable(source, state.nowMs);
  return (
    <>
      {source === null ? null : (
        <aside
          class={invented ? "weather-bar demo" : "weather-bar"}
          aria-label={invented ? "Demonstration" : "Weather shown"}
        >
          <strong>{words(source, speech)}</strong>
          <span class="bar-acts">
            {source.kind === "forecast" ? (
              <button
                type="button"
                class="aid"
                disabled={forecast.asking !== null}
                onClick={() => ask(source.place, source.observed)}
              >
                Renew
              </button>
            ) : null}
            {source.kind === "upload" && follows !== null ? (
              <button
                type="button"
                class="aid"
                disabled={forecast.asking !== null}
                onClick={() => ask(follows, { name: source.name, series: source.series })}
              >
                Add the forecast
              </button>
            ) : null}
            <button
              type="button"
              class="aid"
              ref={button}
              aria-expanded={open}
              onClick={() => {
                setOpen(!open);
                // The part opens at the top of the page; the banner can be pressed from anywhere.
                if (!open) scrollTo({ top: 0 });
              }}
            >
              {source.kind === "forecast" ? "Another place" : "Use my place"}
            </button>
          </span>
        </aside>
      )}
      {forecast.asking === null ? null : <Asking />}
      {forecast.failed === null ? null : (
        <ForecastTrouble
          failed={forecast.failed}
          keeps={source !== null}
          onAgain={ask}
          onUpload={() => go(ownId)}
          onSample={() => go(samplesId)}
        />
      )}
      {open ? (
        <UsePlace
          state={state}
          speech={speech}
          dispatch={dispatch}
          ask={ask}
          onClose={close}
          {...elsewhere}
        />
      ) : null}
    </>
  );
}
