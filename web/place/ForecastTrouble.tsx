import { useEffect, useState } from "preact/hooks";
import type { ForecastState } from "../state/state.ts";
import { useLate } from "../states/Progress.tsx";
import type { AskForecast } from "../weather/use-forecast.ts";

/** The server answers or gives up within this, s. */
const LONGEST_S = 40;

/** How long the services have been asked for. Nothing in the first moment. */
export function Asking() {
  const late = useLate(true);
  const [seconds, setSeconds] = useState(0);
  useEffect(() => {
    const timer = setInterval(() => setSeconds((before) => before + 1), 1000);
    return () => clearInterval(timer);
  }, []);
  if (!late) return null;
  return (
    <div class="progress-bar asking">
      <progress
        max={LONGEST_S}
        value={Math.min(seconds, LONGEST_S)}
        aria-label="Asking the weather services"
      />
      <span role="status">Asking the weather services ...</span>
      <span aria-hidden="true">
        {seconds} s of at most {LONGEST_S}
      </span>
    </div>
  );
}

export interface ForecastTroubleProps {
  readonly failed: NonNullable<ForecastState["failed"]>;
  /** Whether other weather is still shown. */
  readonly keeps: boolean;
  readonly onAgain: AskForecast;
  readonly onUpload: () => void;
  readonly onSample: () => void;
}

/** Why no forecast came, service by service, and the ways on. */
export function ForecastTrouble({ failed, keeps, onAgain, onUpload, onSample }: ForecastTroubleProps) {
  const { message, lines, fields } = failed.failure;
  if (Object.keys(fields).length > 0 && lines.length === 0) return null;
  return (
    <div class="notice forecast-trouble" role="alert">
      <p>
        {message}
        {keeps ? " The board keeps the weather it had." : ""}
      </p>
      {lines.length > 0 ? (
        <ul>
          {lines.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      ) : null}
      <div class="place-next">
        <button type="button" class="aid" onClick={() => onAgain(failed.place)}>
          Try again
        </button>
        <button type="button" class="aid" onClick={onUpload}>
          Upload a file
        </button>
        <button type="button" class="aid" onClick={onSample}>
          Pick a sample
        </button>
      </div>
    </div>
  );
}
