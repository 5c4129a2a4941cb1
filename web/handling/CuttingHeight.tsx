import { PRUSSIC_EDGES } from "../../model/feed/index.ts";
import { PRUSSIC_CROPS } from "../../model/harvest/hazards/prussic-crops.ts";
import { isCoarse, type RouteKey } from "../../model/harvest/index.ts";
import { TextField } from "../panel/Field.tsx";
import { fieldProps, type PanelProps } from "../panel/panel-props.ts";
import { FIELD_LIMITS } from "../state/field-limits.ts";
import type { Edit } from "../state/state.ts";
import { shownText } from "../state/typed.ts";
import type { FieldFacts } from "./facts.ts";
import { limitHint } from "./first-limit.ts";
import {
  canHoldNitrate,
  type HeightRow,
  type HeightsQuestion,
  heightRows,
  heightSentence,
  heightSources,
  heightTable,
  heightText,
  isSuspect,
  sameHeight,
  settableHeight,
  soilSentence,
} from "./height.ts";
import { readOwn } from "./own.ts";
import { Plant } from "./Plant.tsx";
import { cutLines } from "./plant.ts";
import { FoldedTable, Topic, Warning } from "./Told.tsx";

export interface CuttingHeightProps extends PanelProps {
  readonly facts: FieldFacts;
  /** The route that is looked at, and all that are picked, it first. */
  readonly route: RouteKey;
  readonly routes: readonly RouteKey[];
  readonly past: readonly Edit[];
}

/** What undo calls a height that was taken over here. */
export const TAKEN_OVER = "recommended stubble";

/** The nitrate of the laboratory and the height of the plants: what the other parts of the fold go by too. */
export function Tested({ facts, ...props }: PanelProps & { readonly facts: FieldFacts }) {
  const { inputs, manner } = props;
  const given = fieldProps(props, "plantHeightCm", "empty = not measured");
  // Read here as well: the page itself asks for it only where the yield goes by it.
  const own = readOwn(inputs.texts.plantHeightCm, "plantHeight", FIELD_LIMITS.plantHeightCm, manner);
  return (
    <div class="handling-form">
      <TextField
        label="Nitrate"
        {...fieldProps(props, "nitratePpm")}
        unit="ppm NO3-N of dry matter"
        hint={limitHint(facts.limit, manner)}
      />
      {PRUSSIC_CROPS.includes(facts.crop) ? (
        <TextField
          label="Prussic acid"
          {...fieldProps(props, "prussicPpm")}
          unit="ppm of dry matter"
          hint={`laboratory result, the sample kept cool and undried; empty = not tested. From ${PRUSSIC_EDGES.dmPpm} it counts here as over the line`}
        />
      ) : null}
      {canHoldNitrate(facts.crop) ? (
        <TextField label="Height of the plants" {...given} error={given.error ?? own.error} />
      ) : null}
    </div>
  );
}

/** One tap to the recommended height, and one back. */
function TakeOver({
  row,
  rows,
  ...props
}: CuttingHeightProps & { readonly row: HeightRow; readonly rows: readonly HeightRow[] }) {
  const { inputs, dispatch, manner, past } = props;
  const { units } = manner;
  const text = String(settableHeight(row, manner));
  const { stubbleCm } = inputs.texts;
  const there = shownText("stubbleCm", stubbleCm, units) === text;
  const last = past.at(-1);
  return (
    <p class="handling-buttons">
      {there ? null : (
        <button
          type="button"
          class="aid main"
          onClick={() =>
            dispatch({
              kind: "inputs",
              what: TAKEN_OVER,
              inputs: { ...inputs, texts: { ...inputs.texts, stubbleCm: { text, units } } },
            })
          }
        >
          Cut at {heightText(row, manner)}
        </button>
      )}
      {last?.what === TAKEN_OVER ? (
        <button type="button" class="aid" onClick={() => dispatch({ kind: "undo" })}>
          Undo: {TAKEN_OVER}
        </button>
      ) : null}
      <span class="hint">
        {there
          ? "The stubble is set to it. Change it as you like: you know the stones."
          : `Sets the stubble for every route; it is the height for ${sameHeight(rows, row.cm)}.`}
      </span>
    </p>
  );
}

/** Recommended height by route with what it gives up, and the stubble's own field to go by one's own mind. */
export function CuttingHeight(props: CuttingHeightProps) {
  const { facts, route, routes, manner } = props;
  const { crop, dryMatterTHa, stubbleCm, plantHeightCm, nitratePpm, limit } = facts;
  if (dryMatterTHa === null || stubbleCm === null)
    return (
      <Topic
        title="Cutting height"
        sentence="Yield and stubble are needed to tell what a height gives up: see the field."
      >
        <TextField label="Stubble" {...fieldProps(props, "stubbleCm")} />
      </Topic>
    );
  const question: HeightsQuestion = {
    routes,
    crop,
    dryMatterTHa,
    stubbleCm,
    plantHeightCm,
    nitratePpm,
    firstLimitPpm: limit.ppm,
  };
  const rows = heightRows(question);
  const row = rows.find((one) => one.route === route);
  if (row === undefined) return null;
  const sentence = heightSentence(row, question, manner);
  const soil = soilSentence(stubbleCm, manner);
  const coarse = isCoarse(crop);
  return (
    <Topic title="Cutting height" sentence={sentence}>
      <Plant
        plantHeightCm={plantHeightCm}
        lines={cutLines(stubbleCm, row, manner)}
        profile={coarse}
        sentence={sentence}
        manner={manner}
      />
      {soil === null ? null : <Warning>{soil}</Warning>}
      {canHoldNitrate(crop) && isSuspect(nitratePpm, limit.ppm) ? (
        <p>
          Higher leaves nitrate in the field, but how much only a laboratory tells, from the crop as it is
          cut. Nothing is credited to a height before.
        </p>
      ) : null}
      {route === "grazing" ? null : <TakeOver {...props} row={row} rows={rows} />}
      <div class="handling-form">
        <TextField label="Stubble, as you want it" {...fieldProps(props, "stubbleCm", "yours counts")} />
      </div>
      <FoldedTable
        title="Table of the heights"
        caption="Recommended height by route, and what it leaves against the stubble of now"
        heads={[
          "Route",
          "Height",
          "Given up, dry matter",
          "Moisture left",
          "Nitrate",
          "Soil",
          "Commonly",
          "Source of the height",
        ]}
        rows={heightTable(rows, question, manner)}
      />
      {heightSources(rows).map((source) => (
        <p key={source} class="hint">
          Given up by: {source}
        </p>
      ))}
    </Topic>
  );
}
