import { placeAt } from "./place-at.ts";
import { stopId } from "./stops.ts";
import { Vessel } from "./Vessel.tsx";
import type { WindowChoice } from "./window-choices.ts";
import "./window-choices.css";

const BOX = { x0: 2, x1: 28, y0: 2, y1: 26 };

/** The chosen row's windows under it, by name: keys reach them on the row itself. */
export function WindowChoices({
  choices,
  optionId,
  doubted,
}: {
  readonly choices: readonly WindowChoice[];
  readonly optionId: string;
  readonly doubted: boolean;
}) {
  return choices.map(({ vessel, label, from, x0, x1, y0, y1 }) => (
    <button
      key={vessel.key}
      type="button"
      class="window-choice"
      style={placeAt(x0, y0, x1 - x0, y1 - y0)}
      tabIndex={-1}
      aria-pressed={vessel.chosen}
      data-at={stopId.vessel(optionId, vessel.key)}
    >
      <svg width={30} height={28} aria-hidden="true">
        <Vessel
          route={vessel.route}
          box={BOX}
          chance={vessel.chance}
          rainedOn={vessel.rainedOn}
          labelled={true}
          heavy={false}
          doubled={vessel.best}
          doubted={doubted}
        />
      </svg>
      <span>
        <b>{label}</b>
        <br />
        {from}
      </span>
    </button>
  ));
}
