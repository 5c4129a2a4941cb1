import { YIELD_WAYS, type YieldWay } from "../state/inputs.ts";
import { heightTells } from "../state/read-yield.ts";
import { withYieldWay } from "../state/with-yield-way.ts";
import { TextField } from "./Field.tsx";
import { Lever } from "./Lever.tsx";
import { fieldProps, type PanelProps } from "./panel-props.ts";
import { yieldShown } from "./yield-words.ts";

const WAY_WORDS: Readonly<Record<YieldWay, string>> = {
  tonnes: "Weight",
  bales: "Bales",
  strip: "Strip",
  height: "Height",
};

const HOW: Readonly<Record<YieldWay, string>> = {
  tonnes: "Not sure? Weigh a strip: it is the surest way short of a scale under the whole field.",
  bales:
    "Of an earlier cut of this field. What mower, rake and baler left lying is not in it. Surer: weigh a strip.",
  strip:
    "Cut a strip at the stubble you mean to leave and weigh it at once. Several strips along the field tell more than one.",
  height: "A rule of thumb for corn without grain. Weigh a strip before you count on it.",
};

function WayFields(props: PanelProps) {
  switch (props.inputs.yieldBy) {
    case "tonnes":
      return <TextField label="Yield of dry matter" quietWhileNew {...fieldProps(props, "yieldTHa")} />;
    case "bales":
      return (
        <>
          <TextField label="Bales" quietWhileNew {...fieldProps(props, "balesPerHa")} />
          <div class="pair">
            <TextField label="Weight of a bale" quietWhileNew {...fieldProps(props, "baleKg")} />
            <TextField
              label="Moisture of the bales"
              quietWhileNew
              {...fieldProps(props, "baleMoisturePct")}
              unit="%"
            />
          </div>
        </>
      );
    case "strip":
      return (
        <>
          <div class="pair">
            <TextField label="Length of the strip" quietWhileNew {...fieldProps(props, "stripLengthM")} />
            <TextField label="Width of the strip" quietWhileNew {...fieldProps(props, "stripWidthM")} />
          </div>
          <TextField
            label="Fresh weight of the strip"
            quietWhileNew
            {...fieldProps(props, "stripFreshKg", "at the moisture at cutting")}
          />
        </>
      );
    case "height":
      return <TextField label="Height of the plants" quietWhileNew {...fieldProps(props, "plantHeightCm")} />;
  }
}

/** The yield in the way it is known, and always what it comes to in dry matter. */
export function YieldFields(props: PanelProps) {
  const { inputs, read, dispatch, manner } = props;
  const ways = YIELD_WAYS.filter(
    (way) => way !== "height" || heightTells(inputs.crop) || inputs.yieldBy === "height",
  );
  const shown = yieldShown(read.yieldEstimate, manner);
  return (
    <div class="yield">
      <Lever
        label="Yield by"
        does="more lies thicker, dries slower"
        value={inputs.yieldBy}
        choices={ways.map((way) => [way, WAY_WORDS[way]] as const)}
        onChoice={(yieldBy) =>
          dispatch({ kind: "inputs", what: "choice yieldBy", inputs: withYieldWay(inputs, yieldBy) })
        }
      />
      <WayFields {...props} />
      <p class="result" aria-live="polite">
        <strong class="yield-number">{shown.result}</strong>
        {shown.range === null ? null : <span> {shown.range}</span>}
      </p>
      <p class="hint">{HOW[inputs.yieldBy]}</p>
    </div>
  );
}
