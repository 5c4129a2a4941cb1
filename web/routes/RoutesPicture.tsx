import { Vessel } from "../board/Vessel.tsx";
import { type Manner, numberText } from "../format/manner.ts";
import { useWidth } from "../format/use-width.ts";
import { ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import { type Bar, type Segment, toSidePicture } from "./picture.ts";
import type { RouteRow } from "./route-rows.ts";
import { GROUP_WORDS, STEP_GROUPS } from "./steps.ts";
import "./routes-picture.css";

/** Each step has a pattern of its own, so that the picture reads without colour. */
function Patterns() {
  const pattern = (group: string, size: number, turn: number) => ({
    id: `side-${group}`,
    width: size,
    height: size,
    patternUnits: "userSpaceOnUse" as const,
    patternTransform: `rotate(${turn})`,
  });
  return (
    <defs>
      <pattern {...pattern("mow", 5, 45)}>
        <rect class="side-line" width={1} height={5} />
      </pattern>
      <pattern {...pattern("lie", 6, 0)}>
        <circle class="side-line" cx={3} cy={3} r={1.1} />
      </pattern>
      <pattern {...pattern("rain", 4, 0)}>
        <rect class="side-rain" width={2} height={4} />
      </pattern>
      <pattern {...pattern("pass", 5, -45)}>
        <rect class="side-line" width={2} height={5} />
      </pattern>
      <pattern {...pattern("gather", 6, 45)}>
        <path class="side-stroke" d="M0 3H6M3 0V6" />
      </pattern>
      <pattern {...pattern("store", 5, 90)}>
        <rect class="side-line" width={1.6} height={5} />
      </pattern>
    </defs>
  );
}

const LEAST_TEXT_PX = 27;

function Part({ segment, bar, manner }: { segment: Segment; bar: Bar; manner: Manner }) {
  const { group, x0, x1, pct } = segment;
  const kept = group === "kept";
  const middle = (x0 + x1) / 2;
  const text = kept
    ? `${numberText(pct, 0, manner)} % left${x1 - x0 > 170 ? " to feed" : ""}`
    : numberText(pct, 1, manner);
  return (
    <g>
      <rect
        class={kept ? `side-kept kept-${bar.row.route}` : `side-lost lost-${group}`}
        x={x0}
        y={bar.y0}
        width={Math.max(0, x1 - x0)}
        height={bar.y1 - bar.y0}
      />
      {kept || x1 - x0 >= LEAST_TEXT_PX ? (
        <text
          class={kept ? "side-number strong" : "side-number"}
          x={kept ? x0 + 10 : middle}
          y={(bar.y0 + bar.y1) / 2 + 5}
          text-anchor={kept ? "start" : "middle"}
        >
          {text}
        </text>
      ) : null}
    </g>
  );
}

function Name({ bar, narrow }: { readonly bar: Bar; readonly narrow: boolean }) {
  const y = narrow ? bar.nameY - 14 : bar.y0 + 5;
  return (
    <g>
      <Vessel
        route={bar.row.route}
        box={{ x0: 2, x1: 26, y0: y, y1: y + 20 }}
        chance={null}
        rainedOn={false}
        labelled={true}
        heavy={false}
        doubled={bar.row.first}
      />
      <text class={bar.row.first ? "side-name strong" : "side-name"} x={34} y={bar.nameY}>
        {sentenceCase(ROUTE_LABELS[bar.row.route])}
      </text>
    </g>
  );
}

/** What is left of each tonne that stands, route by route, and which step took the rest. */
export function RoutesPicture({
  rows,
  manner,
  sentence,
  drawnPx,
}: {
  readonly rows: readonly RouteRow[];
  readonly manner: Manner;
  readonly sentence: string;
  /** Drawn for this width, px, whatever room there is; absent = for the room there is. */
  readonly drawnPx?: number;
}) {
  const { ref, widthPx } = useWidth<HTMLElement>();
  const told = rows;
  const picture = toSidePicture(told, drawnPx ?? widthPx);
  const groups = STEP_GROUPS.filter((group) =>
    told.some(({ lost }) => lost.some((one) => one.group === group && one.ofStandingPct > 0)),
  );
  return (
    <figure class="side-picture" ref={ref}>
      <svg
        width={picture.widthPx}
        height={picture.heightPx}
        viewBox={`0 0 ${picture.widthPx} ${picture.heightPx}`}
        role="img"
        aria-label={sentence}
      >
        <title>{sentence}</title>
        <Patterns />
        {picture.ticks.map(({ x, pct }) => (
          <g key={pct}>
            <path class="side-tick" d={`M${x} 18V${picture.heightPx}`} />
            <text
              class="side-scale"
              x={x}
              y={13}
              text-anchor={pct === 0 ? "start" : pct === 100 ? "end" : "middle"}
            >
              {pct === 100 ? "100 % standing" : pct}
            </text>
          </g>
        ))}
        {picture.bars.map((bar) => (
          <g key={`${bar.row.optionId} ${bar.row.route}`}>
            <Name bar={bar} narrow={picture.narrow} />
            {bar.segments.map((segment) => (
              <Part key={segment.group} segment={segment} bar={bar} manner={manner} />
            ))}
            {bar.spread ? (
              <path
                class="side-spread"
                d={`M${bar.spread[0]} ${bar.y1 + 3}v5M${bar.spread[0]} ${bar.y1 + 5.5}H${bar.spread[1]}M${bar.spread[1]} ${bar.y1 + 3}v5`}
              />
            ) : null}
          </g>
        ))}
      </svg>
      <figcaption>
        <ul class="side-legend">
          {groups.map((group) => (
            <li key={group}>
              <svg width="26" height="16" aria-hidden="true">
                <rect class={`side-lost lost-${group}`} x="0.6" y="0.6" width="24.8" height="14.8" />
              </svg>
              {GROUP_WORDS[group]}
            </li>
          ))}
          <li class="legend-note">Numbers: per cent of the dry matter that stands</li>
        </ul>
      </figcaption>
    </figure>
  );
}
