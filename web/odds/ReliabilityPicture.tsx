import type { RecordBin } from "../../model/odds/reliability.ts";
import {
  baseShare,
  MOST_PX,
  type ReliabilityDot,
  reliabilityDots,
  reliabilitySentence,
} from "./reliability.ts";

const SIDE_PX = 200;
/** Between the frame and the shares 0 and 1: a dot there lies inside. */
const RIM_PX = MOST_PX + 3;
const LEFT_PX = 44;
const FOOT_PX = 40;
const TOP_PX = 4;
const TICKS = [0, 0.5, 1] as const;
/** A count from its dot, px; past this share it stands at the left. */
const GAP_PX = 4;
const LEFT_FROM = 0.75;
const BAR_PX = 5;

const x = (share: number) => LEFT_PX + RIM_PX + share * SIDE_PX;
const y = (share: number) => TOP_PX + RIM_PX + (1 - share) * SIDE_PX;
const FRAME_PX = SIDE_PX + 2 * RIM_PX;

/** The span in which a right chance would have come, over its told chance. */
function Bar({ told, right: [low, high] }: ReliabilityDot) {
  const cap = (share: number) => `M${x(told) - BAR_PX} ${y(share)}h${2 * BAR_PX}`;
  return <path class="reliability-bar" d={`M${x(told)} ${y(low)}V${y(high)}${cap(low)}${cap(high)}`} />;
}

function Count({ told, came, count, radiusPx }: ReliabilityDot) {
  const left = told > LEFT_FROM;
  const away = Math.max(radiusPx, BAR_PX) + GAP_PX;
  return (
    <text
      class="reliability-count"
      x={x(told) + (left ? -away : away)}
      y={y(came) + 5}
      text-anchor={left ? "end" : "start"}
    >
      {count}
    </text>
  );
}

/** How often a chance came against how it was told: dots on the slanted line are right, as far as their bars reach. */
export function ReliabilityPicture({
  bins,
  days,
  name,
}: {
  readonly bins: readonly RecordBin[];
  /** On how many days all of them were told. */
  readonly days: number;
  readonly name: string;
}) {
  const dots = reliabilityDots(bins);
  const base = baseShare(dots);
  const says = reliabilitySentence(dots, days);
  const footY = TOP_PX + FRAME_PX;
  return (
    <figure class="reliability">
      <figcaption>
        <strong>{name}.</strong> {says}
      </figcaption>
      <svg width={LEFT_PX + FRAME_PX + 2} height={footY + FOOT_PX} role="img" aria-label={`${name}. ${says}`}>
        <rect class="reliability-ground" x={LEFT_PX} y={TOP_PX} width={FRAME_PX} height={FRAME_PX} />
        <path class="reliability-right" d={`M${x(0)} ${y(0)}L${x(1)} ${y(1)}`} />
        {base === null ? null : <path class="reliability-base" d={`M${LEFT_PX} ${y(base)}h${FRAME_PX}`} />}
        {TICKS.map((share) => (
          <g key={share}>
            <text x={x(share)} y={footY + 17} text-anchor="middle">
              {10 * share}
            </text>
            <text x={LEFT_PX - 6} y={y(share) + 5} text-anchor="end">
              {10 * share}
            </text>
          </g>
        ))}
        <text x={x(0.5)} y={footY + 35} text-anchor="middle">
          told, in 10
        </text>
        <text transform={`translate(14 ${y(0.5)}) rotate(-90)`} text-anchor="middle">
          came, in 10
        </text>
        {dots.map((dot) => (
          <Bar key={dot.told} {...dot} />
        ))}
        {dots.map(({ told, came, radiusPx }) => (
          <circle key={told} class="reliability-dot" cx={x(told)} cy={y(came)} r={radiusPx} />
        ))}
        {dots.map((dot) => (
          <Count key={dot.told} {...dot} />
        ))}
      </svg>
    </figure>
  );
}

/** The marks of the pictures, in words. */
export const RELIABILITY_KEY =
  "Dots: how often it came, beside each how many were told so. Slanted line: as told. Bars: within them it comes in 9 of 10 such records if the chance is right, as if all of one day came or failed together. Dotted line: how often it came in all.";
