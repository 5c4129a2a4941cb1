import type { ReliabilityBin } from "../../model/odds/brier.ts";
import { reliabilityDots, reliabilitySentence } from "./reliability.ts";

const SIDE_PX = 200;
const LEFT_PX = 44;
const FOOT_PX = 40;
const TOP_PX = 14;
const TICKS = [0, 0.5, 1] as const;

/** How often a chance came against how it was told: dots on the slanted line are right. */
export function ReliabilityPicture({
  bins,
  name,
}: {
  readonly bins: readonly ReliabilityBin[];
  readonly name: string;
}) {
  const dots = reliabilityDots(bins);
  const x = (share: number) => LEFT_PX + share * SIDE_PX;
  const y = (share: number) => TOP_PX + (1 - share) * SIDE_PX;
  return (
    <figure class="reliability">
      <svg
        width={LEFT_PX + SIDE_PX + 16}
        height={TOP_PX + SIDE_PX + FOOT_PX}
        role="img"
        aria-label={`${name}. ${reliabilitySentence(dots)}`}
      >
        <rect class="reliability-ground" x={x(0)} y={y(1)} width={SIDE_PX} height={SIDE_PX} />
        <path class="reliability-right" d={`M${x(0)} ${y(0)}L${x(1)} ${y(1)}`} />
        {TICKS.map((share) => (
          <g key={share}>
            <text x={x(share)} y={y(0) + 18} text-anchor="middle">
              {10 * share}
            </text>
            <text x={x(0) - 8} y={y(share) + 5} text-anchor="end">
              {10 * share}
            </text>
          </g>
        ))}
        <text x={x(0.5)} y={y(0) + 36} text-anchor="middle">
          told, in 10
        </text>
        <text transform={`translate(14 ${y(0.5)}) rotate(-90)`} text-anchor="middle">
          came, in 10
        </text>
        {dots.map(({ told, came, radiusPx }) => (
          <circle key={told} class="reliability-dot" cx={x(told)} cy={y(came)} r={radiusPx} />
        ))}
      </svg>
      <figcaption>{name}</figcaption>
    </figure>
  );
}
