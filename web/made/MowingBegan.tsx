import { useState } from "preact/hooks";
import { dayClockText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { CLOCKS_APART_MS, timeField, timeOfField } from "../reading/read-reading.ts";

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

/** When the mowing of a cut began, which the board no longer offers. */
export function MowingBegan({
  fromMs,
  nowMs,
  manner,
  onKeep,
  onCancel,
}: {
  readonly fromMs: number;
  readonly nowMs: number;
  readonly manner: Manner;
  readonly onKeep: (cutUtc: string) => void;
  readonly onCancel: () => void;
}) {
  const [time, setTime] = useState(() => timeField(nowMs, manner.zone));
  const [error, setError] = useState<string | null>(null);
  const take = () => {
    const read = readMowing(time, { fromMs, nowMs }, manner);
    setError(read.error);
    if (read.cutUtc !== null) onKeep(read.cutUtc);
  };
  return (
    <>
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
      <button type="button" onClick={onCancel}>
        Cancel
      </button>
      {error === null ? null : (
        <p role="alert" id="made-error">
          {error}
        </p>
      )}
    </>
  );
}
