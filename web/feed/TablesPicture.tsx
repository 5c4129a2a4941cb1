import { CLASS_WORDS, NITRATE_CLASSES, NITRATE_TABLES } from "../../model/feed/index.ts";
import { useWidth } from "../format/use-width.ts";
import { tableName } from "./feed-words.ts";

/** Every published table as one bar, and where each feed lies: the spread is seen before a number is read. */

const LEAST_PX = 280;
const MOST_PX = 760;
const NAME_PX = 172;
const ROW_PX = 18;
const TOP_PX = 44;
/** The most that is drawn, ppm: past the last table's last edge. */
export const MOST_PPM = 5000;

export interface MarkedFeed {
  readonly id: string;
  readonly ppm: number;
}

const scaleOf = (widthPx: number) => (ppm: number) =>
  NAME_PX + ((widthPx - NAME_PX - 8) * Math.min(MOST_PPM, ppm)) / MOST_PPM;

/** The classes of one table along a scale. */
export function Bar({
  bands,
  y,
  tender,
  xOf,
}: {
  readonly xOf: (ppm: number) => number;
  readonly bands: (typeof NITRATE_TABLES)[number]["bands"];
  readonly y: number;
  readonly tender: boolean;
}) {
  let from = 0;
  return (
    <>
      {bands.map((band) => {
        const x0 = xOf(from);
        from = Math.min(MOST_PPM, band.upTo);
        return (
          <rect
            key={band.upTo}
            class={`band band-${NITRATE_CLASSES.indexOf(tender && band.tender ? band.tender.class : band.class)}`}
            x={x0}
            y={y}
            width={Math.max(0, xOf(from) - x0)}
            height={ROW_PX - 3}
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
  tender,
  sentence,
}: {
  readonly feeds: readonly MarkedFeed[];
  /** Whether the animal is read by the tables' stricter column. */
  readonly tender: boolean;
  readonly sentence: string;
}) {
  const { ref, widthPx } = useWidth<HTMLElement>();
  const width = Math.min(MOST_PX, Math.max(LEAST_PX, widthPx));
  const xOf = scaleOf(width);
  const height = TOP_PX + NITRATE_TABLES.length * ROW_PX + 22;
  return (
    <figure class="tables-picture" ref={ref}>
      <svg width={width} height={height} role="img" aria-label={sentence}>
        <title>{sentence}</title>
        <FeedHatch />
        {NITRATE_TABLES.map(({ key, bands }, i) => {
          const y = TOP_PX + i * ROW_PX;
          return (
            <g key={key}>
              <text x={NAME_PX - 6} y={y + ROW_PX - 6} text-anchor="end">
                {tableName(key)}
              </text>
              <Bar bands={bands} y={y} tender={tender} xOf={xOf} />
            </g>
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
      </svg>
      <figcaption>
        <TablesLegend tender={tender} />
      </figcaption>
    </figure>
  );
}

export function TablesLegend({ tender }: { readonly tender: boolean }) {
  return (
    <ul class="tables-legend">
      {NITRATE_CLASSES.map((kind, i) => (
        <li key={kind}>
          <svg width="18" height="12" aria-hidden="true">
            <rect class={`band band-${i}`} width="18" height="12" />
          </svg>
          {CLASS_WORDS[kind]}
        </li>
      ))}
      <li>ppm NO3-N of dry matter, {tender ? "pregnant or tender cattle" : "open cattle"}</li>
    </ul>
  );
}
