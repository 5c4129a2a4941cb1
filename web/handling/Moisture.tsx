import type { CropKey } from "../../model/drying/keys.ts";
import { defaultPackage, HARVEST_DEFAULTS, type RouteKey } from "../../model/harvest/index.ts";
import type { Manner } from "../format/manner.ts";
import type { Inputs } from "../state/inputs.ts";
import { keptAt, MOISTURE_SCALE, moistureSentence, moistureStrip, moistureTable } from "./moisture.ts";
import type { Moment } from "./moments.ts";
import { Strip } from "./Strip.tsx";
import { FoldedTable, Topic } from "./Told.tsx";

export interface MoistureProps {
  readonly route: RouteKey;
  readonly crop: CropKey;
  readonly inputs: Inputs;
  readonly moments: readonly Moment[];
  readonly manner: Manner;
}

/** Moisture by package and store, with the crop's own across it. */
export function Moisture({ route, crop, inputs, moments, manner }: MoistureProps) {
  const usual = {
    package: route === "dry-hay" ? defaultPackage(crop) : HARVEST_DEFAULTS.package.value,
    store: HARVEST_DEFAULTS.store.value,
  };
  const kept = keptAt(route, crop, inputs.routes[route], usual);
  const sentence = moistureSentence(kept, moments, manner);
  return (
    <Topic title="Moisture by package and store" sentence={sentence}>
      <Strip
        rows={moistureStrip(kept, manner)}
        marks={moments.map(({ wb, text }) => ({ at: wb * 100, text }))}
        scale={MOISTURE_SCALE}
        tickText={(pct) => (pct === 90 ? "90 % moisture" : String(pct))}
        sentence={sentence}
        legend={[
          ["fits", "keeps at this moisture"],
          ["bare", "too wet or too dry for it"],
        ]}
        route={route}
      />
      <FoldedTable
        title="Table of the moistures"
        caption="Moisture, wet basis, at which it goes in"
        heads={["Kept in", "Moisture", "Founded on", "Source"]}
        rows={moistureTable(kept, manner)}
      />
    </Topic>
  );
}
