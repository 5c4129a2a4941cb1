import { useRef, useState } from "preact/hooks";
import type { Dispatch } from "../app/use-model.ts";
import type { Speech } from "../state/field-reader.ts";
import type { State } from "../state/state.ts";
import { providerLabel } from "../weather/forecast.ts";
import type { AskForecast } from "../weather/use-forecast.ts";
import { Asking, ForecastTrouble } from "./ForecastTrouble.tsx";
import { go } from "./go.ts";
import { spotText } from "./spot.ts";
import { UsePlace } from "./UsePlace.tsx";
import "./place.css";

/** Where file and samples are: ids of elements of the page. */
export interface Elsewhere {
  readonly ownId: string;
  readonly samplesId: string;
}

export interface WeatherBarProps extends Partial<Elsewhere> {
  readonly state: Pick<State, "source" | "upload" | "forecast" | "nowMs" | "inputs">;
  readonly speech?: Speech;
  readonly dispatch: Dispatch;
  readonly ask: AskForecast;
}

function words(source: NonNullable<State["source"]>): string {
  if (source.kind === "sample") return "Invented demonstration farm and weather";
  if (source.kind === "upload") return `Your file: ${source.name}`;
  return `Forecast for ${spotText(source.series.site)}, ${providerLabel(source.series.provider)}`;
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
  return (
    <>
      {source === null ? null : (
        <aside
          class={invented ? "weather-bar demo" : "weather-bar"}
          aria-label={invented ? "Demonstration" : "Weather shown"}
        >
          <strong>{words(source)}</strong>
          <span class="bar-acts">
            {source.kind === "forecast" ? (
              <button
                type="button"
                class="aid"
                disabled={forecast.asking !== null}
                onClick={() => ask(source.place)}
              >
                Renew
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
