import { DELIVERED_T_PER_H } from "../../model/harvest/route-details/index.ts";
import { type Manner, quantityText } from "../format/manner.ts";
import { useWidth } from "../format/use-width.ts";
import {
  chopSentence,
  chopTable,
  type Packing,
  packingRows,
  packingSentence,
  waterWords,
} from "./chopping.ts";
import { OwnField } from "./OwnField.tsx";
import { readOwn } from "./own.ts";
import { FoldedTable, Topic } from "./Told.tsx";
import type { OwnProps } from "./use-handling.ts";
import "./chopping.css";

export interface ChoppingProps extends OwnProps {
  readonly manner: Manner;
}

const ROW_PX = 30;
const NAME_PX = 96;
const TEXT_PX = 78;
const MOST_PX = 620;

/** Weight on the heap as bars, by what arrives in an hour. */
function Weights({
  rows,
  sentence,
  manner,
}: {
  readonly rows: readonly Packing[];
  readonly sentence: string;
  readonly manner: Manner;
}) {
  const { ref, widthPx } = useWidth<HTMLElement>();
  const width = Math.min(MOST_PX, widthPx);
  const most = Math.max(...rows.map(({ weightT }) => weightT), 1);
  const room = Math.max(10, width - NAME_PX - TEXT_PX);
  return (
    <figure class="handling-picture" ref={ref}>
      {width > 0 ? (
        <svg width={width} height={rows.length * ROW_PX + 20} role="img" aria-label={sentence}>
          <title>{sentence}</title>
          <text class="handling-scale" x={NAME_PX - 10} y={13} text-anchor="end">
            arriving
          </text>
          <text class="handling-scale" x={NAME_PX} y={13}>
            tractors on the heap
          </text>
          {rows.map(({ tPerH, weightT, own }, i) => {
            const y = 20 + i * ROW_PX;
            const long = (weightT / most) * room;
            return (
              <g key={tPerH} class={own ? "handling-own" : undefined}>
                <text x={NAME_PX - 10} y={y + 17} text-anchor="end">
                  {own ? "yours " : ""}
                  {quantityText(tPerH, "delivery", manner)}
                </text>
                <rect class="handling-weight" x={NAME_PX} y={y + 2} width={long} height={20} />
                <text x={NAME_PX + long + 8} y={y + 17}>
                  {quantityText(weightT, "tonnes", manner)}
                </text>
              </g>
            );
          })}
        </svg>
      ) : null}
    </figure>
  );
}

export function Chopping({ own, manner }: ChoppingProps) {
  const typed = own.handling.texts.deliveredTPerH;
  const read = readOwn(typed, "delivery", DELIVERED_T_PER_H, manner);
  const rows = packingRows(read.value, manner);
  const sentence = packingSentence(read.value, manner);
  return (
    <Topic title="Chop and pack" sentence={sentence}>
      <Weights rows={rows} sentence={sentence} manner={manner} />
      <OwnField
        own={own}
        field="deliveredTPerH"
        label="Arriving at the store"
        quantity="delivery"
        hint="as it is, wet; empty = not known yet"
        error={read.error}
        manner={manner}
      />
      <p>{chopSentence(manner)}</p>
      <p>{waterWords(manner)}</p>
      <FoldedTable
        title="Table of chop and packing"
        caption="Chop, layers, density and weight, with their sources"
        heads={["What", "How much", "Source"]}
        rows={chopTable(manner)}
      />
    </Topic>
  );
}
