import type { CropKey } from "../../model/drying/keys.ts";
import {
  BUTYRIC_SOURCE,
  filmLayers,
  WRAP_DELAY_H,
  WRAPPING,
} from "../../model/harvest/route-details/index.ts";
import type { Manner } from "../format/manner.ts";
import { numberText } from "../format/manner.ts";
import { OwnField } from "./OwnField.tsx";
import { readOwn } from "./own.ts";
import { Strip } from "./Strip.tsx";
import { FoldedTable, Topic, Warning } from "./Told.tsx";
import type { OwnProps } from "./use-handling.ts";
import {
  DELAY_SCALE,
  delaySentence,
  delayStrip,
  delayTable,
  filmRowOf,
  filmRows,
  filmSentence,
  tearWords,
} from "./wrapping.ts";
import "./bale.css";

export interface WrappingProps extends OwnProps {
  readonly crop: CropKey;
  readonly manner: Manner;
}

const WEEKS_LIMIT = { min: 0, max: 520, unit: "weeks" } as const;

/** Time from the baler to the film, and what a delay costs. */
export function Delay({ own, manner }: WrappingProps) {
  const read = readOwn(own.handling.texts.wrapDelayH, null, WRAP_DELAY_H, manner);
  const sentence = delaySentence(read.value, manner);
  return (
    <Topic title="From baler to film" sentence={sentence}>
      <Strip
        rows={delayStrip()}
        marks={
          read.value === null
            ? []
            : [{ at: read.value, text: `yours, ${numberText(read.value, 1, manner)} h` }]
        }
        scale={DELAY_SCALE}
        tickText={(h) => (h === DELAY_SCALE.right ? `${h} h` : String(h))}
        sentence={sentence}
        legend={[
          ["fits", "wrap now"],
          ["care", "wrap, and test it before feeding"],
          ["stop", "do not count on it"],
        ]}
        route="wrapped-bales"
      />
      {read.value !== null && read.value > WRAPPING.lateH.value ? (
        <Warning>Wrapped late it can hold butyric acid and spoil: a laboratory tells, not the eye.</Warning>
      ) : null}
      <OwnField
        own={own}
        field="wrapDelayH"
        label="From baler to film"
        unit="h"
        hint="empty = not known yet"
        error={read.error}
        manner={manner}
      />
      <FoldedTable
        title="Table of the delays"
        caption={`Butyric acid by hours to the film: ${BUTYRIC_SOURCE}`}
        heads={["To the film", "Butyric acid", "What to do"]}
        rows={delayTable(manner)}
      />
    </Topic>
  );
}

/** A bale as it is wrapped: a ring for each layer. */
function Layers({ layers }: { readonly layers: number }) {
  const label = `A bale in ${layers} layers of film`;
  return (
    <svg class="handling-bale" width="96" height="96" viewBox="0 0 96 96" role="img" aria-label={label}>
      <title>{label}</title>
      <circle class="handling-bale-core" cx="48" cy="48" r="22" />
      {Array.from({ length: layers }, (_none, i) => (
        <circle key={`layer ${i + 1}`} class="handling-film" cx="48" cy="48" r={24.5 + i * 2.7} />
      ))}
    </svg>
  );
}

export function Film({ own, crop, manner }: WrappingProps) {
  const read = readOwn(own.handling.texts.storedWeeks, null, WEEKS_LIMIT, manner);
  return (
    <Topic title="Layers of film" sentence={filmSentence(crop, read.value, manner)}>
      <Layers layers={filmLayers(crop)} />
      <OwnField
        own={own}
        field="storedWeeks"
        label="Kept before it is fed"
        unit="weeks"
        hint="empty = not known yet"
        error={read.error}
        manner={manner}
      />
      <p>{tearWords(manner)}</p>
      <FoldedTable
        title="Table of the layers"
        caption="Layers of 1 mil (25 µm) by weeks of storage; no source counts them by weeks"
        heads={["Weeks", "Layers", "Why"]}
        rows={filmRows(crop).map(({ weeks, layers, why }) => [weeks, layers, why])}
        applies={read.value === null ? null : filmRowOf(read.value)}
      />
    </Topic>
  );
}
