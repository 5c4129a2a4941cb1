import type { RouteKey } from "../../model/harvest/keys.ts";
import { ROUTE_LETTERS } from "../format/words.ts";
import { type Box, chanceText, FOOT_SHARE, footTicksPath, vesselPath } from "./vessels.ts";

interface VesselProps {
  readonly route: RouteKey;
  readonly box: Box;
  readonly chance: number | null;
  readonly rainedOn: boolean;
  /** Small ones carry no letter. */
  readonly labelled: boolean;
  readonly heavy: boolean;
  readonly doubled: boolean;
}

/** One window as a vessel: outline full, filled from the foot to its chance; without a chance only its foot is coloured. */
export function Vessel({ route, box, chance, rainedOn, labelled, heavy, doubled }: VesselProps) {
  const outline = vesselPath(route, box);
  const share = chance ?? FOOT_SHARE;
  const fillY = box.y1 - (box.y1 - box.y0) * share;
  const clip = `clip-${route}-${[box.x0, box.x1, box.y0].map((n) => Math.round(n * 10)).join("-")}`;
  const middleX = (box.x0 + box.x1) / 2;
  const middleY = (box.y0 + box.y1) / 2;
  const number = chanceText(chance);
  const text = number ?? ROUTE_LETTERS[route];
  const size = Math.min(22, Math.max(12, (box.y1 - box.y0) * 0.62));
  const baseline = number === null && box.y1 - box.y0 > 20 ? middleY - (box.y1 - box.y0) * 0.06 : middleY;
  return (
    <g class={`vessel vessel-${route}${heavy ? " heavy" : ""}`}>
      <clipPath id={clip}>
        <path d={outline} />
      </clipPath>
      {doubled && <path class="vessel-double" d={outline} />}
      <path class="vessel-ground" d={outline} />
      <rect
        class="vessel-fill"
        x={box.x0 - 1}
        width={box.x1 - box.x0 + 2}
        y={fillY}
        height={Math.max(0, box.y1 - fillY)}
        clip-path={`url(#${clip})`}
      />
      {route === "grazing" && <path class="vessel-ticks" d={footTicksPath(box)} />}
      <path class={rainedOn ? "vessel-edge rained" : "vessel-edge"} d={outline} />
      {labelled && (
        <text
          class="vessel-text"
          x={middleX}
          y={baseline + size * 0.36}
          font-size={size}
          text-anchor="middle"
        >
          {text}
        </text>
      )}
    </g>
  );
}
