import { utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { unitsKept } from "../format/words.ts";
import { boardFromUtc } from "../state/board-from.ts";
import type { Choice } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";
import { rowOdds, unplannedOdds } from "./row-odds.ts";
import "./row-odds.css";

/** The odds of the chosen cut and route, under its course. */
export function RowOdds({
  picture,
  choice,
  manner,
}: {
  readonly picture: Picture;
  readonly choice: Choice;
  readonly manner: Manner;
}) {
  const { option, route } = choice;
  if (route === null || route.odds === undefined) return <div class="row-odds" />;
  const from = option.courseCutUtc ?? boardFromUtc(picture);
  const currency = picture.inputs.texts.currency.text.trim();
  const lines = [
    ...rowOdds(route, option.kind === "standing", utcMs(from), currency, manner),
    ...unplannedOdds(option, route, currency, manner),
  ];
  return (
    <dl class="row-odds" aria-label="Odds of the chosen cut">
      {lines.map(({ of, told }) => (
        <div key={of}>
          <dt>{unitsKept(of)}</dt>
          <dd>{unitsKept(told)}</dd>
        </div>
      ))}
    </dl>
  );
}
