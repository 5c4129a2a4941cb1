import type { CropKey } from "../../model/drying/keys.ts";
import type { RouteKey } from "../../model/harvest/index.ts";
import { Strip } from "./Strip.tsx";
import { FoldedTable, Topic } from "./Told.tsx";
import { waitSentence, waitStrip, waitTable } from "./waits.ts";

/** Waits before any of it is fed: the route's own, and the laboratory's in every case. */
export function Waits({ route, crop }: { readonly route: RouteKey; readonly crop: CropKey }) {
  const strip = waitStrip(route, crop);
  const sentence = waitSentence(route, crop);
  return (
    <Topic title="Before it is fed" sentence={sentence}>
      {strip === null ? null : (
        <Strip
          rows={strip.rows}
          marks={[]}
          scale={strip.scale}
          tickText={(value) => (value === strip.scale.right ? `${value} ${strip.unit}` : String(value))}
          sentence={sentence}
          legend={[]}
          route={route}
        />
      )}
      <FoldedTable
        title="Table of the waits"
        caption="From the machine to the animal"
        heads={["What", "How long", "Why", "Source"]}
        rows={waitTable(route, crop)}
      />
    </Topic>
  );
}
