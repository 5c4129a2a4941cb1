import { readsStricter } from "../../model/feed/animals.ts";
import {
  type Animal,
  bandFor,
  CLASS_WORDS,
  isHorse,
  NITRATE_CLASSES,
  type NitrateTable,
  tablesFor,
} from "../../model/feed/index.ts";
import { useWidth } from "../format/use-width.ts";
import { sentenceCase } from "../format/words.ts";
import { ANIMAL_WORDS, tableName } from "./feed-words.ts";

/** Every published table as one bar, and where each feed lies: the spread is seen before a number is read. */

const LEAST_PX = 280;
const MOST_PX = 760;
/** Room for the longest table's name beside its bar; where there is too little of it the name stands above. */
const NAME_PX = 214;
const BESIDE_FROM_PX = 520;
const BAR_PX = 15;
const NAME_ROW_PX = 17;
const TOP_PX = 44;
/** The most that is drawn, ppm: past the last table's last edge. */
export const MOST_PPM = 5000;

export interface MarkedFeed {
  readonly id: string;
  readonly ppm: number;
}

/** Whom the tables are read for. */
export type Reader = Pick<Animal, "class" | "pregnant" | "young">;

const scaleOf = (leftPx: number, widthPx: number) => (ppm: number) =>
  leftPx + ((widthPx - leftPx - 8) * Math.min(MOST_PPM, ppm)) / MOST_PPM;

/** The classes of one table along a scale. */
export function Bar({
  table,
  y,
  animal,
  xOf,
}: {
  readonly xOf: (ppm: number) => number;
  readonly table: NitrateTable;
  readonly y: number;
  readonly animal: Reader;
}) {
  let from = 0;
  return (
    <>
      {table.bands.map((band) => {
        const x0 = xOf(from);
        from = Math.min(MOST_PPM, band.upTo);
        return (
          <rect
            key={band.upTo}
            class={`band band-${bandFor(table, band, animal).class}`}
            x={x0}
            y={y}
            width={Math.max(0, xOf(from) - x0)}
            height={BAR_PX}
          />
        );
      })}
    </>
  );
}

/** Not as the only feed: hatched. */
export function FeedHatch() {
  return (
    <defs>
      <pattern
        id="feed-hatch"
        width="6"
        height="6"
        patternUnits="userSpaceOnUse"
        patternTransform="rotate(45)"
      >
        <rect width="1.6" height="6" class="feed-hatch-line" />
      </pattern>
    </defs>
  );
}

/** @param sentence what the picture says, for those who do not see it */
export function TablesPicture({
  feeds,
  animal,
  sentence,
}: {
  readonly feeds: readonly MarkedFeed[];
  readonly animal: Reader;
  readonly sentence: string;
}) {
  const { ref, widthPx } = useWidth<HTMLElement>();
  const width = Math.min(MOST_PX, Math.max(LEAST_PX, widthPx));
  const beside = width >= BESIDE_FROM_PX;
  const xOf = scaleOf(beside ? NAME_PX : 4, width);
  const rowPx = BAR_PX + 3 + (beside ? 0 : NAME_ROW_PX);
  const tables = tablesFor(animal);
  const height = TOP_PX + tables.length * rowPx + 22;
  return (
    <figure class="tables-picture" ref={ref}>
      <svg width={width} height={height} role="img" aria-label={sentence}>
        <title>{sentence}</title>
        <FeedHatch />
        {tables.map((table, i) => {
          const y = TOP_PX + i * rowPx;
          return (
            <Bar key={table.key} table={table} y={beside ? y : y + NAME_ROW_PX} animal={animal} xOf={xOf} />
          );
        })}
        {[0, 1000, 2000, 3000, 4000].map((ppm) => (
          <text key={ppm} x={xOf(ppm)} y={height - 6} text-anchor="middle" class="tick">
            {ppm}
          </text>
        ))}
        {feeds.map(({ id, ppm }, i) => {
          const x = xOf(ppm);
          const end = x > width * 0.7;
          return (
            <g key={id} class="feed-mark">
              <path d={`M${x} ${14 + (i % 2) * 15}V${height - 20}`} />
              <text x={end ? x - 4 : x + 4} y={12 + (i % 2) * 15} text-anchor={end ? "end" : "start"}>
                {id} {Math.round(ppm)}
                {ppm > MOST_PPM ? " →" : ""}
              </text>
            </g>
          );
        })}
        {tables.map(({ key }, i) => (
          <text
            key={key}
            class="tables-name"
            x={beside ? NAME_PX - 6 : 4}
            y={TOP_PX + i * rowPx + 12}
            text-anchor={beside ? "end" : "start"}
          >
            {sentenceCase(tableName(key))}
          </text>
        ))}
      </svg>
      <figcaption>
        <TablesLegend animal={animal} />
      </figcaption>
    </figure>
  );
}

/** "Open cattle", "tables made for cattle, read for a mare": for whom the bars are drawn. */
export function readerWords(animal: Reader): string {
  const tender = readsStricter(animal);
  if (!isHorse(animal) && !MADE_FOR_OTHERS.includes(animal.class))
    return tender ? "pregnant or tender cattle" : "open cattle";
  const column = tender ? "their column for pregnant or tender stock" : "their column for open stock";
  return `tables made for cattle, read for a ${ANIMAL_WORDS[animal.class]}: ${column}`;
}

/** Sheep and goats: read by the cattle tables, which do not speak of them. */
const MADE_FOR_OTHERS: readonly Animal["class"][] = ["ewe", "lamb", "doe"];

export function TablesLegend({ animal }: { readonly animal: Reader }) {
  return (
    <ul class="tables-legend">
      {NITRATE_CLASSES.map((kind) => (
        <li key={kind}>
          <svg width="18" height="12" aria-hidden="true">
            <rect class={`band band-${kind}`} width="18" height="12" />
          </svg>
          {CLASS_WORDS[kind]}
        </li>
      ))}
      <li>ppm NO3-N of dry matter, {readerWords(animal)}</li>
    </ul>
  );
}
