import { READING_METHODS } from "../../model/odds/reading-methods.ts";
import { dayClockText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { moisturePct } from "../format/words.ts";
import { KeepInBook } from "./KeepInBook.tsx";
import type { Reading } from "./readings.ts";

/** A name inside a sentence: its units keep their capitals. */
function inSentence(label: string): string {
  return `${label.charAt(0).toLowerCase()}${label.slice(1)}`;
}

function valueText({ moistureWb, range }: Reading["request"], manner: Manner): string {
  return moistureWb === undefined
    ? `${moisturePct(range?.[0] ?? 0, manner)} to ${moisturePct(range?.[1] ?? 0, manner)}`
    : moisturePct(moistureWb, manner);
}

/** Readings that were taken, each with what can be done about it; nothing where there are none. */
export function TakenList({
  readings,
  fieldName,
  manner,
  onUndo,
  isQuestioned = () => false,
  onConfirm,
}: {
  readonly readings: readonly Reading[];
  readonly fieldName: string;
  readonly manner: Manner;
  readonly onUndo: (reading: Reading) => void;
  readonly isQuestioned?: (reading: Reading) => boolean;
  readonly onConfirm?: (reading: Reading) => void;
}) {
  if (readings.length === 0) return null;
  return (
    <ul>
      {readings.map((reading, i) => {
        const { request, place } = reading;
        const { atUtc, method } = request;
        return (
          <li key={`${i} ${atUtc} ${method}`}>
            {dayClockText(atUtc, manner)}: {valueText(request, manner)},{" "}
            {inSentence(READING_METHODS[method].label)}
            {place === "" ? "" : `, ${place}`}
            <div class="odds-buttons">
              {isQuestioned(reading) ? (
                <button type="button" onClick={() => onConfirm?.(reading)}>
                  It is right: use it
                </button>
              ) : null}
              <button type="button" onClick={() => onUndo(reading)}>
                Take it back
              </button>
              <KeepInBook reading={reading} fieldName={fieldName} />
            </div>
          </li>
        );
      })}
    </ul>
  );
}
