import { useEffect, useRef, useState } from "preact/hooks";
import type { Tries } from "../app/use-model.ts";
import type { Alignment } from "../course/course-picture.ts";
import { later } from "../fold/later.tsx";
import type { Manner } from "../format/manner.ts";
import type { Kept } from "../state/state.ts";
import { PRESET_LABELS, type Preset, presetsFor } from "./presets.ts";
import { workOut } from "./work-out.ts";
import "./compare.css";

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

/** The two side by side: only who keeps a cut aside needs their script. */
const Sides = later(
  () => import("./Sides.tsx").then((module) => module.Sides),
  <p class="compare-sentence">The two cuts are being compared ...</p>,
);

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
