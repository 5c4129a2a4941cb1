import { useState } from "preact/hooks";
import { dayClockText, utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { CLOCKS_APART_MS, timeField, timeOfField } from "../reading/read-reading.ts";
import type { Choice } from "../state/choice.ts";
import type { Action } from "../state/reducer.ts";
import type { Picture, State } from "../state/state.ts";
import { withMade, withoutMade } from "./made-cuts.ts";
import "./made.css";

/** When mowing began as it was typed, or what is wrong with it. */
export function readMowing(
  text: string,
  { fromMs, nowMs }: { readonly fromMs: number; readonly nowMs: number },
  manner: Manner,
): { readonly error: string | null; readonly cutUtc: string | null } {
  const atMs = timeOfField(text, manner.zone);
  const wrong = (error: string) => ({ error, cutUtc: null });
  if (atMs === null) return wrong(`Got "${text}", must be a day and an hour of the farm's clock.`);
  const got = `Got ${dayClockText(atMs, manner)}`;
  if (atMs > nowMs + CLOCKS_APART_MS)
    return wrong(`${got}, must not lie after now (${dayClockText(nowMs, manner)}).`);
  if (atMs < fromMs)
    return wrong(
      `${got}, must not lie before this weather begins (${dayClockText(fromMs, manner)}). A station's file with the forecast added to it reaches back farther.`,
    );
  return { error: null, cutUtc: `${new Date(atMs).toISOString().slice(0, 19)}Z` };
}

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
  const { source } = picture;
  const [time, setTime] = useState<string | null>(null);
  const [error, setError] = useState<string | null>(null);
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
  const keep = (startUtc: string) => {
    setTime(null);
    setError(null);
    const next = withMade(made, picture, startUtc, nowMs);
    const optionId = `${startUtc}/${option.treatment ?? ""}`;
    dispatch({ kind: "made", made: next });
    dispatch({ kind: "select", selection: { optionId, route: route?.route ?? null } });
  };
  const fromMs = utcMs(source.series.hours.startUtc[0] ?? cutUtc);
  if (time === null)
    return (
      <p class="made-cut">
        <button
          type="button"
          onClick={() => (utcMs(cutUtc) <= nowMs ? keep(cutUtc) : setTime(timeField(nowMs, manner.zone)))}
        >
          This cut is made
        </button>
      </p>
    );
  const take = () => {
    const read = readMowing(time, { fromMs, nowMs }, manner);
    setError(read.error);
    if (read.cutUtc !== null) keep(read.cutUtc);
  };
  return (
    <div class="made-cut">
      <label for="made-time">Mowing began, the farm's time</label>
      <input
        id="made-time"
        type="datetime-local"
        value={time}
        aria-invalid={error !== null}
        aria-describedby={error === null ? undefined : "made-error"}
        onInput={({ currentTarget }) => setTime(currentTarget.value)}
      />
      <button type="button" class="primary" onClick={take}>
        Keep it on the board
      </button>
      <button type="button" onClick={() => setTime(null)}>
        Cancel
      </button>
      {error === null ? null : (
        <p role="alert" id="made-error">
          {error}
        </p>
      )}
    </div>
  );
}
