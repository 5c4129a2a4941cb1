import { useRef } from "preact/hooks";
import { CROP_CATALOGUE, CROPS } from "../../model/drying/index.ts";
import type { CropKey } from "../../model/drying/keys.ts";
import { ROUTES, type RouteKey } from "../../model/harvest/index.ts";
import { steppedText } from "../format/manner.ts";
import { shownClock } from "../state/clock-text.ts";
import { choppedStanding } from "../state/routes-of-crop.ts";
import { withCrop } from "../state/with-crop.ts";
import { Group, SelectField, TextField } from "./Field.tsx";
import { fieldProps, type PanelProps } from "./panel-props.ts";
import { RouteFields } from "./RouteFields.tsx";
import { type TypicalRate, typicalMowHaPerH, typicalRates, typicalWords } from "./typical-rates.ts";
import { YieldFields } from "./YieldFields.tsx";

const BALED: readonly RouteKey[] = ["dry-hay", "wrapped-bales"];
const CHOPPED: readonly RouteKey[] = ["wilted-chop", "direct-chop", "green-chop"];

function FieldAndCrop(props: PanelProps) {
  const { inputs, read, dispatch, manner } = props;
  const { usualMoistureWb, usualStubbleCm } = CROP_CATALOGUE[inputs.crop];
  const grow = (crop: CropKey) => {
    const next = withCrop(inputs, crop);
    const routed = ROUTES.some((route) => next.routes[route].on !== inputs.routes[route].on);
    dispatch({ kind: "inputs", what: routed ? "crop and its routes" : "choice crop", inputs: next });
  };
  const chopped = !choppedStanding(inputs.crop)
    ? ""
    : inputs.routes["direct-chop"].on
      ? ". Commonly chopped standing: direct chop is among the routes"
      : ". Commonly chopped standing, but direct chop is not ticked among the routes";
  return (
    <Group title="Field and crop">
      <TextField
        label="Name of the field"
        numeric={false}
        value={inputs.fieldName}
        error={read.errors.fieldName}
        onText={(fieldName) => dispatch({ kind: "choice", choice: { fieldName } })}
      />
      <SelectField
        label="Crop"
        value={inputs.crop}
        choices={CROPS.map((key) => [key, CROP_CATALOGUE[key].label] as const)}
        hint={`Usually cut at about ${Math.round(usualMoistureWb * 100)} % moisture and ${steppedText(usualStubbleCm, "stubble", manner)} stubble${chopped}`}
        onChoice={grow}
      />
      <YieldFields {...props} />
      <TextField label="Area" {...fieldProps(props, "areaHa", "more takes longer")} />
    </Group>
  );
}

function MachinesAndHours(props: PanelProps) {
  const { read, manner } = props;
  // What is typical stays told while a value elsewhere is wrong.
  const last = useRef(read.question);
  if (read.question !== null) last.current = read.question;
  const { current: question } = last;
  const rates = (of: readonly RouteKey[]) => (question ? typicalRates(question, of) : []);
  const rate = (
    field: "mowHaPerH" | "balerHaPerH" | "chopperHaPerH",
    does: string,
    typical: readonly TypicalRate[],
  ) => ({
    ...fieldProps(props, field, `${does}; ${typicalWords(typical, manner)}`),
    placeholder: "typical",
  });
  const { hour12 } = manner;
  const day = (["00:00", "23:59", "24:00"] as const).map((text) => shownClock("workTo", text, hour12));
  const clock = manner.hour12 ? "as 7 am" : "HH:MM";
  const hours = manner.hour12 ? "as 9 am 1 pm 5 pm" : "as 9 13 17";
  return (
    <Group title="Machines and hours">
      <TextField
        label="Mowing"
        {...rate("mowHaPerH", "faster has the field down sooner", [
          { label: "Mowing", haPerH: typicalMowHaPerH() },
        ])}
      />
      <TextField label="Baler" {...rate("balerHaPerH", "faster fits shorter windows", rates(BALED))} />
      <TextField label="Chopper" {...rate("chopperHaPerH", "faster fits shorter windows", rates(CHOPPED))} />
      <div class="pair">
        <TextField
          label="Work from"
          numeric={false}
          {...fieldProps(props, "workFrom")}
          unit={clock}
          hint={`earlier meets more dew; ${day[0]} to ${day[1]}`}
        />
        <TextField
          label="to"
          numeric={false}
          {...fieldProps(props, "workTo")}
          unit={clock}
          hint={`later has longer windows; to ${day[2]}, or before the start: through the night`}
        />
      </div>
      <TextField
        label="Cut hours to compare"
        numeric={false}
        {...fieldProps(props, "cutHours")}
        hint={`Whole hours of the farm's clock, ${hours}; an earlier cut has more of its first day to dry`}
      />
    </Group>
  );
}

/** Field, machines, hours and routes: what changes less often. */
export function FieldPanel(props: PanelProps) {
  return (
    <div class="groups">
      <FieldAndCrop {...props} />
      <MachinesAndHours {...props} />
      <Group title="Routes">
        <RouteFields {...props} />
      </Group>
    </div>
  );
}
