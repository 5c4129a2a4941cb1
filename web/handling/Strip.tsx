import { useId } from "preact/hooks";
import { useWidth } from "../format/use-width.ts";
import {
  BAR_PX,
  placeStrip,
  roomFor,
  type Scale,
  type StripMark,
  type StripRow,
  toldTicks,
  type ZoneKind,
} from "./strip.ts";
import "./strip.css";

export interface StripProps {
  readonly rows: readonly StripRow[];
  readonly marks: readonly StripMark[];
  readonly scale: Scale;
  readonly tickText: (value: number) => string;
  /** What the picture says, for those who do not see it. */
  readonly sentence: string;
  /** What the ways of drawing mean here, in the order of the legend; those that are not said are left out. */
  readonly legend: readonly (readonly [ZoneKind, string])[];
  /** Colours what fits. */
  readonly route: string;
}

const MOST_PX = 860;

/** Zones along one scale, with the reader's own values across them. */
export function Strip({ rows, marks, scale, tickText, sentence, legend, route }: StripProps) {
  const { ref, widthPx } = useWidth<HTMLElement>();
  const width = Math.min(MOST_PX, widthPx);
  const placed = placeStrip(rows, marks, scale, width);
  // By a name of its own in each picture: a pattern of another one may be gone from the page.
  const hatch = useId();
  const look = (kind: ZoneKind) => ({
    class: `handling-zone zone-${kind} fits-${route}`,
    ...(kind === "care" ? { fill: `url(#${hatch})` } : {}),
  });
  return (
    <figure class="handling-picture" ref={ref}>
      {width > 0 ? (
        <svg width={width} height={placed.height} role="img" aria-label={sentence}>
          <title>{sentence}</title>
          <defs>
            <pattern
              id={hatch}
              width="6"
              height="6"
              patternUnits="userSpaceOnUse"
              patternTransform="rotate(45)"
            >
              <rect class="handling-line" width="1.6" height="6" />
            </pattern>
          </defs>
          {placed.ticks.map(({ x, value }) => (
            <path key={value} class="handling-tick" d={`M${x} 4V${placed.height - 18}`} />
          ))}
          {toldTicks(placed.ticks.map(({ x, value }) => ({ x, text: tickText(value) }))).map(
            ({ x, text, anchor }) => (
              <text key={text} class="handling-scale" x={x} y={placed.height - 4} text-anchor={anchor}>
                {text}
              </text>
            ),
          )}
          {placed.rows.map(({ name, y, zones }) => (
            <g key={name}>
              {zones.map((zone) => (
                <g key={zone.from}>
                  <rect class="handling-under" x={zone.x} y={y} width={zone.width} height={BAR_PX} />
                  <rect {...look(zone.kind)} x={zone.x} y={y} width={zone.width} height={BAR_PX} />
                </g>
              ))}
            </g>
          ))}
          {placed.marks.map(({ x, text, y }) => (
            <g key={text} class="handling-mark">
              <path d={`M${x} ${y + 3}V${placed.height - 18}`} />
            </g>
          ))}
          {placed.rows.map(({ name, nameX, nameY, y, zones }) => (
            <g key={name}>
              <text
                class="handling-name"
                x={nameX}
                y={nameY}
                text-anchor={nameX < placed.x0 ? "end" : "start"}
              >
                {name}
              </text>
              {zones.map(({ from, x, width: wide, kind, text }) =>
                text && roomFor(text) <= wide ? (
                  <text
                    key={from}
                    class={`handling-inside on-${kind}`}
                    x={x + wide / 2}
                    y={y + BAR_PX / 2 + 5}
                    text-anchor="middle"
                  >
                    {text}
                  </text>
                ) : null,
              )}
            </g>
          ))}
          {placed.marks.map(({ x, text, y, anchor }) => (
            <g key={text} class="handling-mark">
              <text x={anchor === "start" ? x + 5 : x - 5} y={y} text-anchor={anchor}>
                {text}
              </text>
            </g>
          ))}
        </svg>
      ) : null}
      {legend.length > 0 ? (
        <figcaption>
          <ul class="handling-legend">
            {legend.map(([kind, words]) => (
              <li key={kind}>
                <svg width="26" height="16" aria-hidden="true">
                  <rect class="handling-under" x="0.6" y="0.6" width="24.8" height="14.8" />
                  <rect {...look(kind)} x="0.6" y="0.6" width="24.8" height="14.8" />
                </svg>
                {words}
              </li>
            ))}
          </ul>
        </figcaption>
      ) : null}
    </figure>
  );
}
