import { useState } from "preact/hooks";
import { later } from "../fold/later.tsx";
import { dayClockText, utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import type { Action } from "../state/action.ts";
import type { Choice } from "../state/choice.ts";
import type { Picture, State } from "../state/state.ts";
import { withMade, withoutMade } from "./made-cuts.ts";
import "./made.css";

/** When mowing began is asked for where the row itself lies ahead: its script comes with the press. */
const MowingBegan = later(
  () => import("./MowingBegan.tsx").then((module) => module.MowingBegan),
  <span>One moment ...</span>,
);

/** Says of the chosen row that it was cut, or takes that back: what lies stays on the board when the clock has passed it. */
export function MadeCutOfRow({
  picture,
  choice,
  made,
  nowMs,
  manner,
  dispatch,
}: {
  readonly picture: Picture;
  readonly choice: Choice;
  readonly made: State["made"];
  readonly nowMs: number;
  readonly manner: Manner;
  readonly dispatch: (action: Action) => void;
}) {
  const { option, route } = choice;
  const [asking, setAsking] = useState(false);
  // Weather without a now is only looked at: nothing is cut in it.
  if (option.cutUtc === null || picture.request.nowUtc == null) return null;
  const { cutUtc } = option;
  if (option.made)
    return (
      <p class="made-cut">
        Lying since {dayClockText(cutUtc, manner)}.{" "}
        <button
          type="button"
          onClick={() => dispatch({ kind: "made", made: withoutMade(made, picture, cutUtc) })}
        >
          Not made
        </button>
      </p>
    );
  // Chances on their way may put another row first: the one that is asked about stays.
  const ask = () => {
    setAsking(true);
    dispatch({ kind: "select", selection: { optionId: option.id, route: route?.route ?? null } });
  };
  const keep = (startUtc: string) => {
    setAsking(false);
    const next = withMade(made, picture, startUtc, nowMs);
    const optionId = `${startUtc}/${option.treatment ?? ""}`;
    dispatch({ kind: "made", made: next });
    dispatch({ kind: "select", selection: { optionId, route: route?.route ?? null } });
  };
  return (
    <div class="made-cut">
      {asking ? (
        <MowingBegan
          fromMs={utcMs(picture.source.series.hours.startUtc[0] ?? cutUtc)}
          nowMs={nowMs}
          manner={manner}
          onKeep={keep}
          onCancel={() => setAsking(false)}
        />
      ) : (
        <button type="button" onClick={() => (utcMs(cutUtc) <= nowMs ? keep(cutUtc) : ask())}>
          This cut is made
        </button>
      )}
    </div>
  );
}
