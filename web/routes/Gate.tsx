import { useMemo } from "preact/hooks";
import { beforeCutting } from "../../model/harvest/value/before-cutting.ts";
import type { Dispatch } from "../app/use-model.ts";
import { Fold } from "../fold/Fold.tsx";
import { later } from "../fold/later.tsx";
import { type Manner, quantityText } from "../format/manner.ts";
import { TextField } from "../panel/Field.tsx";
import { fieldProps } from "../panel/panel-props.ts";
import { GATE_KEYS, type GateKey, type Inputs, type YieldWay } from "../state/inputs.ts";
import { readInputs } from "../state/read-inputs.ts";
import type { Picture } from "../state/state.ts";
import "./routes.css";
import "./gate.css";

/** What stands before every plan: the questions of this crop, ticked off as they are settled. */

const YIELD_BY: Readonly<Record<YieldWay, string>> = {
  tonnes: "as typed",
  bales: "by bales of an earlier cut",
  strip: "by a weighed strip",
  height: "by plant height",
};

/** It weighs whole answers against one another: fetched once the board is there. */
const AgainstWaiting = later(
  () => import("./AgainstWaiting.tsx").then((module) => module.AgainstWaiting),
  <p class="side-more">Waiting is being weighed ...</p>,
);

const FIELDS = [
  "grainTHa",
  "grainPrice",
  "grainCost",
  "grainChancePct",
  "laterTHa",
  "laterPrice",
  "laterCost",
] as const;

function Waiting({ inputs, dispatch, manner }: Omit<GateProps, "picture">) {
  const read = useMemo(() => readInputs(inputs, manner), [inputs, manner]);
  const props = { inputs, read, dispatch, manner };
  const currency = inputs.texts.currency.text.trim();
  const field = (name: (typeof FIELDS)[number], label: string, does: string) => {
    const given = fieldProps(props, name, does);
    const priced = name === "grainTHa" || name === "laterTHa" || name === "grainChancePct";
    const unit = name === "grainChancePct" ? "%" : given.unit;
    return (
      <TextField label={label} {...given} hint={does} unit={priced ? unit : `${currency} ${unit}`.trim()} />
    );
  };
  const { yieldEstimate } = read;
  return (
    <div class="routes-side">
      <p>
        The crop now:{" "}
        {yieldEstimate ? quantityText(yieldEstimate.dryMatterTHa, "dryMatterYield", manner) : "not known"} of
        dry matter, {YIELD_BY[inputs.yieldBy]}. Plant height, a strip or bales tell it better:{" "}
        <a class="to-field" href="#field">
          Yield by
        </a>
        .
      </p>
      <div class="side-form">
        {field("grainTHa", "Grain to come", "empty = none")}
        {field("grainPrice", "Its price", "of grain")}
        {field("grainCost", "Its harvest costs", "combine and hauling")}
        {field("grainChancePct", "Chance that it comes", "empty = certain")}
        {field("laterTHa", "Forage later", "regrowth or a later cut, dry matter; empty = none")}
        {field("laterPrice", "Its price", "of dry matter; empty = of the dearest route")}
        {field("laterCost", "Its harvest costs", "all machines")}
      </div>
    </div>
  );
}

export interface GateProps {
  readonly picture: Picture;
  readonly inputs: Inputs;
  readonly manner: Manner;
  readonly dispatch: Dispatch;
}

export function Gate({ picture, inputs, manner, dispatch }: GateProps) {
  const gates = beforeCutting(inputs.crop);
  const { settled } = inputs;
  const done = gates.filter(({ key }) => settled.includes(key)).length;
  const tick = (key: GateKey, on: boolean) =>
    dispatch({
      kind: "choice",
      choice: { settled: GATE_KEYS.filter((one) => (one === key ? on : settled.includes(one))) },
    });
  return (
    <section class="gate" aria-labelledby="gate-heading">
      <h2 id="gate-heading">
        Before cutting{" "}
        <span class="gate-done">{done === gates.length ? "all" : `${done} of ${gates.length}`} settled</span>
      </h2>
      <ul class="gate-list">
        {gates.map(({ key, ask, why, source }) => (
          <li key={key}>
            <label class="check" title={source}>
              <input
                type="checkbox"
                checked={settled.includes(key)}
                onChange={(event) => tick(key, event.currentTarget.checked)}
              />
              <span>
                <strong>{ask}</strong> <span class="gate-why">{why}</span>
              </span>
            </label>
          </li>
        ))}
      </ul>
      <AgainstWaiting picture={picture} manner={manner} />
      <Fold class="board-details" summary="Salvage now, or leave it?">
        {() => <Waiting inputs={inputs} manner={manner} dispatch={dispatch} />}
      </Fold>
    </section>
  );
}
