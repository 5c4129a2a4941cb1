import type { RouteKey } from "../../model/harvest/keys.ts";
import { tenths } from "../../model/odds/in-ten.ts";
import { ROUTE_LETTERS } from "../format/words.ts";
import { type Box, footTicksPath, vesselPath, WALL_PX } from "./vessels.ts";
import "./vessel.css";

/** Clear space between a vessel's wall and its number, px, and the width of a figure, em. */
const AIR_PX = 2;
const CHARACTER_EM = 0.62;

interface VesselProps {
  readonly route: RouteKey;
  readonly box: Box;
  readonly chance: number | null;
  readonly rainedOn: boolean;
  /** Small ones carry no letter. */
  readonly labelled: boolean;
  readonly heavy: boolean;
  readonly doubled: boolean;
  /** An old forecast's number carries a question mark. */
  readonly doubted?: boolean;
}

/** White between a dashed outline and the wall, so that the dashes are seen, px. */
const GAP_PX = 1.6;

/** One window as a vessel: outline full, filled from the foot to its chance; without a chance empty, its wall coloured. */
export function Vessel({
  route,
  box,
  chance,
  rainedOn,
  labelled,
  heavy,
  doubled,
  doubted = false,
}: VesselProps) {
  const outline = vesselPath(route, box);
  const wallPx = box.y1 - box.y0 < 16 ? WALL_PX - 1 : WALL_PX;
  const fillY = box.y1 - (box.y1 - box.y0) * (chance ?? 0);
  const clip = `clip-${route}-${[box.x0, box.x1, box.y0].map((n) => Math.round(n * 10)).join("-")}`;
  const middleX = (box.x0 + box.x1) / 2;
  const middleY = (box.y0 + box.y1) / 2;
  const number = chance === null ? null : tenths(chance);
  const text = number === null ? ROUTE_LETTERS[route] : `${number}${doubted ? "?" : ""}`;
  // Air on both sides of the number, and never under 12 px.
  const fits = (box.x1 - box.x0 - 2 * (wallPx + AIR_PX)) / (CHARACTER_EM * text.length);
  const size = Math.max(12, Math.min(22, (box.y1 - box.y0) * 0.62, fits));
  return (
    <g class={`vessel vessel-${route}${heavy ? " heavy" : ""}`}>
      <clipPath id={clip}>
        <path d={outline} />
      </clipPath>
      {doubled && <path class="vessel-double" d={outline} />}
      <path class="vessel-ground" d={outline} />
      {chance === null ? (
        <path
          class="vessel-wall"
          d={outline}
          // Half of the stroke is clipped away.
          stroke-width={2 * (wallPx + (rainedOn ? GAP_PX : 0))}
          clip-path={`url(#${clip})`}
        />
      ) : (
        <rect
          class="vessel-fill"
          x={box.x0 - 1}
          width={box.x1 - box.x0 + 2}
          y={fillY}
          height={Math.max(0, box.y1 - fillY)}
          clip-path={`url(#${clip})`}
        />
      )}
      {chance === null && rainedOn && (
        <path class="vessel-gap" d={outline} stroke-width={2 * GAP_PX} clip-path={`url(#${clip})`} />
      )}
      {route === "grazing" && <path class="vessel-ticks" d={footTicksPath(box)} />}
      <path class={rainedOn ? "vessel-edge rained" : "vessel-edge"} d={outline} />
      {labelled && (
        <text class="vessel-text" x={middleX} y={middleY + size * 0.36} font-size={size} text-anchor="middle">
          {text}
        </text>
      )}
    </g>
  );
}
