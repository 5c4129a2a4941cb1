import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { Tries } from "../app/use-model.ts";
import type { Alignment } from "../course/kept-line.ts";
import type { Manner } from "../format/manner.ts";
import { unitsKept } from "../format/words.ts";
import type { Kept } from "../state/state.ts";
import { compareRows } from "./compare-rows.ts";
import { compareSentence, courseCutMs } from "./compare-sentence.ts";
import { PRESET_LABELS, type Preset, presetsFor } from "./presets.ts";
import { workOut } from "./work-out.ts";
import "./compare.css";

const ALIGN_LABELS: Readonly<Record<Alignment, string>> = {
  calendar: "by the calendar",
  cut: "from the cut",
};

export interface CompareProps {
  /** The chosen cut. */
  readonly now: Kept;
  readonly kept: Kept | null;
  readonly align: Alignment;
  readonly manner: Manner;
  /** Works out a preset's cut. */
  readonly tries: Tries;
  readonly onKeep: (kept: Kept | null) => void;
  readonly onAlign: (align: Alignment) => void;
}

function Offers({ now, manner, tries, onKeep }: Pick<CompareProps, "now" | "manner" | "tries" | "onKeep">) {
  const [failed, setFailed] = useState<Preset | null>(null);
  // An answer to what is no longer asked is let go: another row, another lever, another tap.
  const latest = useRef<unknown>(null);
  latest.current = now;
  const take = async (preset: Preset) => {
    setFailed(null);
    const cut = await workOut(now, preset, manner, tries);
    if (latest.current !== now) return;
    if (cut === null) setFailed(preset);
    else onKeep(cut);
  };
  useEffect(
    () => () => {
      latest.current = null;
    },
    [],
  );
  return (
    <>
      <div class="compare-offers">
        <button type="button" class="compare-keep" onClick={() => onKeep(now)}>
          Keep this cut to compare
        </button>
        {presetsFor(now).map((preset) => (
          <button key={preset} type="button" onClick={() => take(preset)}>
            <span class="hidden">Compare </span>
            {PRESET_LABELS[preset]}
          </button>
        ))}
      </div>
      <p class="compare-told" role="status">
        {failed !== null &&
          `${failed === "later" ? "Four hours later the mowing does not fit the working hours or the weather" : "That cut cannot be worked out here"}, so there is nothing to compare with.`}
      </p>
    </>
  );
}

function Sides({ now, kept, align, manner, onKeep, onAlign }: CompareProps & { readonly kept: Kept }) {
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

/** Two treatments or two cut hours side by side: one kept aside, the other as chosen now. */
export function Compare(props: CompareProps) {
  const { now, kept, onKeep } = props;
  return (
    <section class="compare" aria-labelledby="compare-heading">
      <h3 id="compare-heading">Compare</h3>
      {kept === null ? (
        <Offers now={now} manner={props.manner} tries={props.tries} onKeep={onKeep} />
      ) : (
        <Sides {...props} kept={kept} />
      )}
    </section>
  );
}
