import { useEffect, useState } from "preact/hooks";
import type { Tries } from "../app/use-model.ts";
import type { Alignment } from "../course/course-picture.ts";
import { later } from "../fold/later.tsx";
import type { Manner } from "../format/manner.ts";
import type { Preset } from "../state/preset.ts";
import type { Kept } from "../state/state.ts";
import { PRESET_LABELS, presetsFor } from "./presets.ts";
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
  /** What a link asks to be compared with, until it is worked out; null = nothing. */
  readonly asked?: Preset | null;
  /** What a link asks for cannot be had. */
  readonly onAskedInVain?: () => void;
}

/** Whether both are of the same row, route and levers, whatever came to their course meanwhile. */
function isSameCut(a: Kept, b: Kept): boolean {
  return a.option.id === b.option.id && a.route === b.route && a.inputs === b.inputs && a.source === b.source;
}

function Offers({ now, manner, tries, onKeep, asked = null, onAskedInVain }: CompareProps) {
  const [failed, setFailed] = useState<Preset | null>(null);
  const [tapped, setTapped] = useState<{ readonly preset: Preset; readonly of: Kept } | null>(null);
  // What was tapped on another row, or under another lever, is no longer asked.
  const wanted = asked ?? (tapped !== null && isSameCut(tapped.of, now) ? tapped.preset : null);
  useEffect(() => {
    if (wanted === null) return;
    let gone = false;
    void workOut(now, wanted, manner, tries).then((cut) => {
      if (gone) return;
      setTapped(null);
      if (cut !== null) return onKeep(cut);
      setFailed(wanted);
      if (asked !== null) onAskedInVain?.();
    });
    // The same cut with its bands, which came meanwhile, is asked for again.
    return () => {
      gone = true;
    };
  }, [wanted, now]);
  const take = (preset: Preset) => {
    setFailed(null);
    setTapped({ preset, of: now });
  };
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
  const { kept } = props;
  return (
    <section class="compare" aria-labelledby="compare-heading">
      <h3 id="compare-heading">Compare</h3>
      {kept === null ? <Offers {...props} /> : <Sides {...props} kept={kept} />}
    </section>
  );
}
