import { useMemo } from "preact/hooks";
import type { Alignment } from "../course/course-picture.ts";
import { unitsKept } from "../format/words.ts";
import type { Kept } from "../state/state.ts";
import type { CompareProps } from "./Compare.tsx";
import { compareRows } from "./compare-rows.ts";
import { compareSentence } from "./compare-sentence.ts";
import { courseCutMs } from "./kept-cut.ts";

const ALIGN_LABELS: Readonly<Record<Alignment, string>> = {
  calendar: "by the calendar",
  cut: "from the cut",
};

/** The chosen cut and the kept one: a sentence, how the courses lie, a table. */
export function Sides({ now, kept, align, manner, onKeep, onAlign }: CompareProps & { readonly kept: Kept }) {
  const rows = useMemo(() => compareRows(now, kept, manner), [now, kept, manner]);
  const apart = courseCutMs(now) !== courseCutMs(kept);
  return (
    <>
      <p class="compare-sentence" aria-live="polite">
        {unitsKept(compareSentence(now, kept, align, manner))}
      </p>
      <div class="compare-offers">
        {apart && (
          <fieldset class="compare-align">
            <legend class="hidden">Lay the two courses</legend>
            {(["calendar", "cut"] as const).map((each) => (
              <label key={each} class={each === align ? "chosen" : undefined}>
                <input
                  type="radio"
                  name="compare-align"
                  checked={each === align}
                  onChange={() => onAlign(each)}
                />
                {ALIGN_LABELS[each]}
              </label>
            ))}
          </fieldset>
        )}
        <button type="button" onClick={() => onKeep(null)}>
          Stop comparing
        </button>
      </div>
      <table class="compare-table">
        <caption class="hidden">The chosen cut beside the kept one</caption>
        <thead>
          <tr>
            <td />
            <th scope="col">Chosen cut</th>
            <th scope="col">Kept cut</th>
          </tr>
        </thead>
        <tbody>
          {rows.map((row) => (
            <tr key={row.head}>
              <th scope="row">{unitsKept(row.head)}</th>
              <td>{unitsKept(row.now)}</td>
              <td>{unitsKept(row.kept)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </>
  );
}
