import { useMemo } from "preact/hooks";
import { ROUTES } from "../../model/harvest/index.ts";
import type { FoldsProps } from "../app/Folds.tsx";
import { LIMIT_WORDS } from "../board/reasons.ts";
import { BriefButton } from "../brief/BriefButton.tsx";
import { Fold } from "../fold/Fold.tsx";
import { dayClockText } from "../format/farm-time.ts";
import { listText, ROUTE_LABELS, sentenceCase, unitsKept } from "../format/words.ts";
import { MoneyFields } from "./MoneyFields.tsx";
import { moneyPer } from "./money-words.ts";
import { RoutesPicture } from "./RoutesPicture.tsx";
import { RoutesTable } from "./RoutesTable.tsx";
import { sideBySide } from "./route-rows.ts";
import { turnSentence } from "./turn-words.ts";
import "./routes.css";

/** Turning points that are told; the others move further. */
const TURNS_TOLD = 3;

/** Routes of the chosen cut side by side: what each keeps, what it costs, what it is worth, and what would change that. */
export function RoutesSide({ state, picture, choice, manner, dispatch }: FoldsProps) {
  const side = useMemo(() => picture && sideBySide(picture, choice), [picture, choice]);
  if (picture === null || side === null) return <p class="no-course">There is no answer to compare yet.</p>;
  const { rows, sentence, turns, without } = side;
  const { inputs } = state;
  const currency = picture.inputs.texts.currency.text.trim();
  const cutUtc = choice?.option.cutUtc ?? null;
  const [first] = rows;
  const off = ROUTES.filter((route) => !inputs.routes[route].on);
  const turnLines = turns.flatMap((turn) => turnSentence(turn, manner) ?? []).slice(0, TURNS_TOLD);
  return (
    <div class="routes-side">
      <p class="side-lead" aria-live="polite">
        {sentence === "" ? "No route brings this cut in." : unitsKept(sentence)}
      </p>
      {first && first.valuePerHa !== null ? (
        <p class="side-more">
          {cutUtc === null ? "Taken standing" : `Cut ${dayClockText(cutUtc, manner)}`}:{" "}
          {ROUTE_LABELS[first.route]} {first.route === "wrapped-bales" ? "are" : "is"} worth most,{" "}
          {moneyPer(first.valuePerHa, "perHa", currency, manner)} after losses and work.
          {first.note === null ? "" : ` ${first.note}`}
        </p>
      ) : null}
      {rows.length > 0 ? <RoutesPicture rows={rows} manner={manner} sentence={sentence} /> : null}
      {turnLines.length > 0 ? (
        <div>
          <h3>What would change the first place</h3>
          <ul class="plain-list">
            {turnLines.map((line) => (
              <li key={line}>{unitsKept(line)}</li>
            ))}
          </ul>
        </div>
      ) : rows.length > 1 ? (
        <p>No single price, rate, yield or store, moved up to four times, changes the first place.</p>
      ) : null}
      {without.length > 0 ? (
        <p class="side-more">
          Not brought in by this cut:{" "}
          {without
            .map(
              ({ route, limitedBy }) =>
                `${ROUTE_LABELS[route]}${limitedBy === null ? "" : ` (${LIMIT_WORDS[limitedBy]})`}`,
            )
            .join(", ")}
          .
        </p>
      ) : null}
      {off.length > 0 ? (
        <fieldset class="side-off">
          <legend>
            {sentenceCase(listText(off.map((route) => ROUTE_LABELS[route])))} not compared. Add:
          </legend>
          {off.map((route) => (
            <label key={route} class="check">
              <input
                type="checkbox"
                checked={false}
                onChange={() => dispatch({ kind: "route", route, choice: { on: true } })}
              />
              {sentenceCase(ROUTE_LABELS[route])}
            </label>
          ))}
        </fieldset>
      ) : null}
      {rows.length > 0 ? <RoutesTable rows={rows} currency={currency} manner={manner} /> : null}
      <BriefButton state={state} picture={picture} choice={choice} manner={manner} />
      <Fold class="board-details" summary="Prices, stores and rates">
        {() => <MoneyFields inputs={inputs} dispatch={dispatch} manner={manner} />}
      </Fold>
      <Fold class="board-details" summary="Where the losses come from">
        {() => (
          <ul class="sources">
            {rows.flatMap(({ route, lossSteps }) =>
              lossSteps.map(({ step, source }) => (
                <li key={`${route} ${step}`}>
                  {sentenceCase(ROUTE_LABELS[route])}, {step}: {source}
                </li>
              )),
            )}
          </ul>
        )}
      </Fold>
    </div>
  );
}
