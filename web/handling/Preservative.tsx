import type { CropKey } from "../../model/drying/keys.ts";
import { defaultPackage } from "../../model/harvest/index.ts";
import { BALE_MOISTURE_WB } from "../../model/harvest/route-details/index.ts";
import { type Manner, numberText } from "../format/manner.ts";
import type { Inputs } from "../state/inputs.ts";
import type { Moment } from "./moments.ts";
import { OwnField } from "./OwnField.tsx";
import { pctLimit, readOwn } from "./own.ts";
import {
  PRESERVATIVE_SCALE,
  preservativeRow,
  preservativeSentence,
  preservativeStrip,
  preservativeTable,
} from "./preservative.ts";
import { Strip } from "./Strip.tsx";
import { FoldedTable, Topic } from "./Told.tsx";
import type { OwnProps } from "./use-handling.ts";

export interface PreservativeProps extends OwnProps {
  readonly crop: CropKey;
  readonly inputs: Inputs;
  readonly moments: readonly Moment[];
  readonly manner: Manner;
}

/** Preservative by the moisture that the hay is baled at. */
export function Preservative({ own, crop, inputs, moments, manner }: PreservativeProps) {
  const pack = inputs.routes["dry-hay"].package ?? defaultPackage(crop);
  const read = readOwn(own.handling.texts.balePct, null, pctLimit(BALE_MOISTURE_WB), manner);
  const opens = moments.find(({ key }) => key === "window");
  const typed = read.value !== null;
  const balePct = read.value ?? (read.error === undefined && opens ? opens.wb * 100 : null);
  const sentence = preservativeSentence(pack, balePct, manner);
  const mark = balePct === null ? "" : `${typed ? "yours" : "window"}, ${numberText(balePct, 1, manner)} %`;
  return (
    <Topic title="Preservative" sentence={sentence}>
      <Strip
        rows={preservativeStrip(pack, manner)}
        marks={balePct === null ? [] : [{ at: balePct, text: mark }]}
        scale={PRESERVATIVE_SCALE}
        tickText={(pct) => (pct === 40 ? "40 % moisture" : String(pct))}
        sentence={sentence}
        legend={[
          ["fits", "dry enough without"],
          ["care", "propionic acid, % of the wet weight"],
          ["stop", "too wet for any dose"],
        ]}
        route="dry-hay"
      />
      <OwnField
        own={own}
        field="balePct"
        label="Moisture at the baler, wettest windrow"
        unit="%"
        hint="empty = as the window opens; measure it"
        error={read.error}
        manner={manner}
      />
      <FoldedTable
        title="Table of the doses"
        caption="Propionic acid, active, on hay as it is; it does nothing for nitrate"
        heads={["Moisture", "Share", "Dose", "Source"]}
        rows={preservativeTable(pack, manner)}
        applies={balePct === null ? null : preservativeRow(pack, balePct)}
      />
    </Topic>
  );
}
