import { useMemo } from "preact/hooks";
import { LEAST_DAYS, type ScoreWithConfidence } from "../../model/odds/confidence.ts";
import { recordAnswer } from "../../model/odds/record-answer.ts";
import type { FoldsProps } from "../app/Folds.tsx";
import { numberText } from "../format/manner.ts";
import { ROUTE_LABELS } from "../format/words.ts";
import { readMet } from "../reading/met.ts";
import "./odds.css";

/** How the forecasts that met a reading did, from what this device kept. */
export function RecordOf({ state, manner }: FoldsProps) {
  const record = useMemo(
    () => recordAnswer({ timeZone: manner.zone, moisture: readMet() }),
    [state.readings, manner.zone],
  );
  if (!record.ok) return <p role="alert">{record.issues.map(({ message }) => message).join("; ")}</p>;
  const { counts, moisture, notes } = record.value;
  const score = (one: ScoreWithConfidence, decimals: number) =>
    one.enough
      ? `${numberText(one.mean * 100, decimals, manner)} (${numberText(one.p5 * 100, decimals, manner)} to ${numberText(one.p95 * 100, decimals, manner)})`
      : "";
  return (
    <div class="odds-fold">
      <p class="odds-says">
        {counts.moisture === 0
          ? "No forecast has met a reading on this device yet. Take a reading of a swath under a forecast, and it is scored here."
          : counts.days < LEAST_DAYS
            ? `${counts.moisture} readings on ${counts.days} days met a forecast: too few to say. It takes ${LEAST_DAYS} days.`
            : `${counts.moisture} readings on ${counts.days} days met a forecast.`}
      </p>
      {moisture.length === 0 ? null : (
        <div class="odds-scroll">
          <table>
            <caption>Forecast against reading, points of moisture, with 9 in 10 confidence by days</caption>
            <thead>
              <tr>
                <th scope="col">Route</th>
                <th scope="col">Hours ahead</th>
                <th scope="col">Days</th>
                <th scope="col">Bias</th>
                <th scope="col">Mean error</th>
                <th scope="col">CRPS</th>
                <th scope="col">In the 8-in-10 band</th>
              </tr>
            </thead>
            <tbody>
              {moisture.map(({ route, leadH, bias, absoluteError, crps, inside80 }) => (
                <tr key={`${route} ${leadH[0]}`}>
                  <th scope="row">
                    {route !== null && route in ROUTE_LABELS
                      ? ROUTE_LABELS[route as keyof typeof ROUTE_LABELS]
                      : "any"}
                  </th>
                  <td>
                    {leadH[0]} to {leadH[1]}
                  </td>
                  <td>{bias.days}</td>
                  {!bias.enough ? (
                    <td colSpan={4}>too few to say</td>
                  ) : (
                    <>
                      <td>{score(bias, 1)}</td>
                      <td>{score(absoluteError, 1)}</td>
                      <td>{score(crps, 1)}</td>
                      <td>{score(inside80, 0)} %</td>
                    </>
                  )}
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
      {notes.map((text) => (
        <p key={text}>{text}</p>
      ))}
    </div>
  );
}
