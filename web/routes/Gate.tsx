import { useMemo } from "preact/hooks";
import { firstAgainstWaiting } from "../../model/harvest/index.ts";
import { beforeCutting } from "../../model/harvest/value/before-cutting.ts";
import type { Dispatch } from "../app/use-model.ts";
import { Fold } from "../fold/Fold.tsx";
import { type Manner, quantityText } from "../format/manner.ts";
import { ROUTE_LABELS } from "../format/words.ts";
import { TextField } from "../panel/Field.tsx";
import { fieldProps } from "../panel/panel-props.ts";
import { GATE_KEYS, type GateKey, type Inputs, type YieldWay } from "../state/inputs.ts";
import { readInputs } from "../state/read-inputs.ts";
import type { Picture } from "../state/state.ts";
import { moneyPer } from "./money-words.ts";
import "./routes.css";

/** What stands before every plan: the questions of this crop, ticked off as they are settled. */

const YIELD_BY: Readonly<Record<YieldWay, string>> = {
  tonnes: "as typed",
  bales: "by bales of an earlier cut",
  strip: "by a weighed strip",
  height: "by plant height",
};

const FIELDS = [
  "grainTHa",
  "grainPrice",
  "grainCost",
  "grainChancePct",
  "laterTHa",
  "laterPrice",
  "laterCost",
] as const;

/** In a sentence what waiting brings against harvesting now; a question where nothing was typed. */
export function waitingSentence({ request, source, answer, inputs }: Picture, manner: Manner): string {
  if (request.leave === undefined)
    return "Type what grain or regrowth would bring: the value standing is set against the value harvested.";
  const { first: best, leave } = firstAgainstWaiting({ ...request, weather: source.series }, answer);
  if (!best || best.valuePerHa === null || leave === null)
    return "Nothing can be brought in in this weather, so there is nothing to set waiting against.";
  const { better, differencePerHa, standingPerHa } = leave;
  const per = (value: number) => moneyPer(value, "perHa", inputs.texts.currency.text.trim(), manner);
  const verdict =
    better === "harvest"
      ? `Harvesting now is worth ${per(differencePerHa)} more`
      : `Leaving it is worth ${per(-differencePerHa)} more`;
  return `${verdict}: ${per(best.valuePerHa)} by ${ROUTE_LABELS[best.route]} against ${per(standingPerHa)} by waiting.`;
}

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
  const sentence = useMemo(() => waitingSentence(picture, manner), [picture, manner]);
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
      <p class="side-more" aria-live="polite">
        {sentence}
      </p>
      <Fold class="board-details" summary="Salvage now, or leave it?">
        {() => <Waiting inputs={inputs} manner={manner} dispatch={dispatch} />}
      </Fold>
    </section>
  );
}
