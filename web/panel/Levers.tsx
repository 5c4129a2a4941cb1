import type { ComponentChildren } from "preact";
import { CONDITIONINGS, SOIL_CLASSES } from "../../model/drying/index.ts";
import type { Conditioning } from "../../model/drying/keys.ts";
import { rainText, sentenceCase } from "../format/words.ts";
import type { RakeChoice, TedChoice } from "../state/inputs.ts";
import type { Edit } from "../state/state.ts";
import { swathRange } from "../state/swath-range.ts";
import type { SoilOfWeather } from "../weather/use-soil.ts";
import { TextField } from "./Field.tsx";
import { Lever } from "./Lever.tsx";
import { fieldProps, type PanelProps } from "./panel-props.ts";
import { Undo } from "./Undo.tsx";
import { coverWords, presetOf, WIDTH_PRESETS, type WidthPreset, withCover } from "./widths.ts";

const TED: readonly (readonly [TedChoice, string])[] = [
  ["usual", "Usual"],
  ["none", "None"],
  ["morning-after", "Next day"],
  ["after-cut", "Same day"],
];
const RAKE: readonly (readonly [RakeChoice, string])[] = [
  ["usual", "Usual"],
  ["none", "None"],
  ["before-window", "Timed"],
];
const AGENT: readonly (readonly ["no" | "yes", string])[] = [
  ["no", "None"],
  ["yes", "Sprayed"],
];
const CONDITIONING_LABELS: Readonly<Record<Conditioning, string>> = {
  none: "None",
  roll: "Rollers",
  impeller: "Impeller",
  intensive: "Intensive",
};

/** The hours of the chosen day that can be cut at; choosing one chooses its row. */
export interface CutHourLever {
  readonly label: string;
  readonly leftOut: string | null;
  readonly value: string;
  readonly choices: readonly (readonly [string, string])[];
  readonly onChoice: (optionId: string) => void;
}

export interface LeversProps extends PanelProps {
  readonly past?: readonly Edit[];
  readonly cutHour?: CutHourLever | null;
  /** What the last days' weather says of the ground, where it tells. */
  readonly soil?: SoilOfWeather | null;
  /** The one change that would help most. */
  readonly children?: ComponentChildren;
  /** What each choice brings, by lever, where it is known. */
  readonly effects?: {
    readonly width?: Readonly<Partial<Record<WidthPreset, string>>>;
    readonly conditioning?: Readonly<Partial<Record<Conditioning, string>>>;
    readonly ted?: Readonly<Partial<Record<TedChoice, string>>>;
    readonly rake?: Readonly<Partial<Record<RakeChoice, string>>>;
  };
}

function widthHint(range: string | null): string {
  return range === null ? "wider dries faster" : `wider dries faster; ${range}`;
}

function Widths(props: LeversProps) {
  const { inputs, read, dispatch, manner, effects } = props;
  const covered = read.coveredFraction;
  const range = swathRange(inputs, manner);
  const lay = (preset: WidthPreset) => {
    const share = WIDTH_PRESETS.find(({ key }) => key === preset)?.share;
    const next = share === undefined ? null : withCover(inputs, share, manner);
    if (next !== null) dispatch({ kind: "inputs", what: "swath width", inputs: next });
  };
  return (
    <>
      <Lever
        label="Swath"
        does="wider dries faster"
        value={presetOf(covered)}
        choices={WIDTH_PRESETS.map(({ key, share }) => [key, coverWords(share, manner)] as const)}
        onChoice={lay}
        effects={effects?.width}
        disabled={range === null}
      />
      <div class="pair">
        <TextField label="Mower cut" {...fieldProps(props, "mowerCutM", "mown in one pass")} />
        <TextField label="Swath width" {...fieldProps(props, "swathWidthM", widthHint(range))} />
      </div>
      <p class="covered" aria-live="polite">
        {covered === null
          ? "Covered share: not known"
          : `The swath covers ${Math.round(covered * 100)} % of the cut.`}
      </p>
    </>
  );
}

function Passes(props: LeversProps) {
  const { inputs, dispatch, effects } = props;
  return (
    <>
      <Lever
        label="Ted"
        does="spreads again: faster, costs leaf"
        value={inputs.ted}
        choices={TED}
        onChoice={(ted) => dispatch({ kind: "choice", choice: { ted } })}
        effects={effects?.ted}
      />
      {inputs.ted === "morning-after" ? (
        <TextField
          label="Ted on the day after the cut, at"
          numeric={false}
          {...fieldProps(props, "tedHour")}
          hint="whole hours of the farm's clock; best with the dew off"
        />
      ) : null}
      {inputs.ted === "after-cut" ? (
        <TextField label="Ted after the cut" {...fieldProps(props, "tedAfterH")} unit="hours" />
      ) : null}
      <Lever
        label="Rake"
        does="narrows for the pick-up"
        value={inputs.rake}
        choices={RAKE}
        onChoice={(rake) => dispatch({ kind: "choice", choice: { rake } })}
        effects={effects?.rake}
      />
      {inputs.rake === "before-window" ? (
        <TextField
          label="Rake before the window"
          {...fieldProps(props, "rakeBeforeH", "moister keeps leaf")}
          unit="hours"
        />
      ) : null}
      <p class="hint">
        "Usual" teds and rakes dry hay as the crop commonly gets it. Tedding set by hand holds for every route
        that lies in a swath, raking for dry hay alone: the others are picked up as they lie.
      </p>
    </>
  );
}

/** What can still be changed once the day is chosen: each change redraws board and course. */
export function Levers(props: LeversProps) {
  const { inputs, dispatch, manner, past, cutHour, soil, children, effects } = props;
  return (
    <section class="levers" aria-label="Change and see">
      <h2>Change and see</h2>
      {past ? <Undo past={past} dispatch={dispatch} /> : null}
      {cutHour && cutHour.choices.length > 1 ? (
        <Lever does="earlier has more of the day to dry" {...cutHour} />
      ) : null}
      {cutHour?.leftOut ? <p class="hint">{cutHour.leftOut}</p> : null}
      <Widths {...props} />
      <Lever
        label="Conditioning"
        does="opens stems: faster"
        value={inputs.conditioning}
        choices={CONDITIONINGS.map((key) => [key, CONDITIONING_LABELS[key]] as const)}
        onChoice={(conditioning) => dispatch({ kind: "choice", choice: { conditioning } })}
        effects={effects?.conditioning}
      />
      <Passes {...props} />
      <Lever
        label="Ground under the swath"
        does="wetter slows"
        value={inputs.soil}
        choices={SOIL_CLASSES.map((key) => [key, sentenceCase(key)] as const)}
        onChoice={(soil) => dispatch({ kind: "choice", choice: { soil } })}
      />
      {soil ? (
        <p class="hint">
          The last {soil.days} days say {soil.soil}: {rainText(soil.rainMm, manner)} of rain against{" "}
          {rainText(soil.referenceEtMm, manner)} that the air could take. You have stood on it: correct it.
        </p>
      ) : null}
      <Lever
        label="Drying agent"
        does="carbonate: faster"
        value={inputs.dryingAgent ? "yes" : "no"}
        choices={AGENT}
        onChoice={(agent) => dispatch({ kind: "choice", choice: { dryingAgent: agent === "yes" } })}
      />
      <TextField label="Moisture at cutting" {...fieldProps(props, "moisturePct", "measure it")} unit="%" />
      <TextField label="Stubble" {...fieldProps(props, "stubbleCm", "taller keeps off wet soil")} />
      {children}
    </section>
  );
}
