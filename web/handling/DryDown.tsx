import { defaultBand, HARVEST_DEFAULTS } from "../../model/harvest/index.ts";
import { within } from "../../model/limits.ts";
import { numberText } from "../format/manner.ts";
import { TextField } from "../panel/Field.tsx";
import { fieldProps, type PanelProps } from "../panel/panel-props.ts";
import { FIELD_LIMITS } from "../state/field-limits.ts";
import { typedValue } from "../state/typed.ts";
import { dryDownPicture, dryDownSentence, dryDownTable } from "./dry-down.ts";
import { Strip } from "./Strip.tsx";
import { FoldedTable, Topic } from "./Told.tsx";

/** The standing crop's own dry-down into the band of the store that is chosen for direct chop. */
export function StandingDryDown(props: PanelProps) {
  const { inputs, read, manner } = props;
  const { crop, routes, texts } = inputs;
  const store = routes["direct-chop"].store ?? HARVEST_DEFAULTS.store.value;
  const band = defaultBand("direct-chop", crop, HARVEST_DEFAULTS.package.value, store);
  const pct = typedValue("moisturePct", texts.moisturePct);
  const typed = typedValue("dryDownPointsPerDay", texts.dryDownPointsPerDay);
  const ownRate = typed !== null && within(typed, FIELD_LIMITS.dryDownPointsPerDay) ? typed : null;
  const known = pct !== null && within(pct, FIELD_LIMITS.moisturePct) && band !== null;
  const question = known ? { moistureWb: pct / 100, bandWb: band.bandWb, ownRate } : null;
  const sentence = question
    ? dryDownSentence(question, manner)
    : "The moisture of the standing crop is not known yet: measure the whole plant.";
  const picture = question && dryDownPicture(question, manner);
  const usual = numberText(HARVEST_DEFAULTS.dryDownPointsPerDay.value, 1, manner);
  return (
    <Topic title="The standing crop dries by itself" sentence={sentence}>
      {picture ? (
        <Strip
          rows={picture.rows}
          marks={[]}
          scale={picture.scale}
          tickText={(day) => (day === 0 ? "now" : `${day} d`)}
          sentence={sentence}
          legend={[]}
          route="direct-chop"
        />
      ) : null}
      <div class="handling-form">
        <TextField
          label="Moisture, whole plant"
          {...fieldProps({ ...props, read }, "moisturePct", "measure it")}
          unit="%"
        />
        <TextField
          label="Standing crop loses, a day"
          {...fieldProps(props, "dryDownPointsPerDay", `empty = ${usual}, published for corn`)}
          unit="points"
        />
      </div>
      {question ? (
        <FoldedTable
          title="Table of the dry-down"
          caption="Days from now, unless it rains"
          heads={["Rate", "Into the band", "Too dry", "Source"]}
          rows={dryDownTable(question, manner)}
        />
      ) : null}
    </Topic>
  );
}
