import type { ComponentChildren } from "preact";
import "../board/legend.css";

const WIDTH_PX = 30;
const HEIGHT_PX = 22;
const BOX = { x: 2, y: 2, width: WIDTH_PX - 4, height: HEIGHT_PX - 4, rx: 2 } as const;

function Key({ mark, children }: { readonly mark: ComponentChildren; readonly children: ComponentChildren }) {
  return (
    <li>
      <svg width={WIDTH_PX} height={HEIGHT_PX} aria-hidden="true">
        {mark}
      </svg>
      {children}
    </li>
  );
}

interface LegendProps {
  /** Of how many forecasts the rain is drawn, and at which of several places. */
  readonly rain: { readonly forecasts: number; readonly place: string | null };
}

/** The key to the time chart; the patterns are the chart's own. */
export function CrewLegend({ rain: { forecasts, place } }: LegendProps) {
  const at = place === null ? "" : ` at ${place}`;
  return (
    <ul class="board-legend crew-legend" aria-label="Key to the time chart">
      <Key mark={<rect class="crew-open" {...BOX} />}>fit to be baled or chopped, after some mowing</Key>
      <Key mark={<rect class="crew-window" {...BOX} />}>its window: the same after the planned mowing</Key>
      <Key
        mark={
          <g class="crew-job">
            <rect {...BOX} />
            <text x={WIDTH_PX / 2} y={HEIGHT_PX / 2 + 5} text-anchor="middle">
              M
            </text>
          </g>
        }
      >
        a work: its first letter, or what tells the field from the others
      </Key>
      <Key
        mark={
          <g class="crew-job home">
            <rect {...BOX} />
          </g>
        }
      >
        takes the crop off the field
      </Key>
      <Key
        mark={
          <g class="crew-job home">
            <rect {...BOX} />
            <rect class="crew-outside" {...BOX} />
          </g>
        }
      >
        the same outside its window
      </Key>
      <Key mark={<path class="crew-caution" d="M15 4l7 13h-14zm0 5v3.500m0 1.500v1" />}>
        held or moved against weather, window or hours
      </Key>
      <Key mark={<rect class="crew-left" {...BOX} />}>left standing, or a machine broken or away</Key>
      <Key mark={<rect class="crew-rain" {...BOX} rx={0} height={8} />}>
        {forecasts === 1
          ? `rain${at}`
          : `rain${at} in half of the ${forecasts} forecasts or more; as long as their mean`}
      </Key>
      {forecasts === 1 ? null : (
        <Key mark={<rect class="crew-rain seldom" {...BOX} rx={0} height={8} />}>
          rain in fewer of them: most have it dry
        </Key>
      )}
      <Key
        mark={
          <g>
            <rect class="crew-there" {...BOX} rx={0} />
            <rect class="crew-busy" {...BOX} rx={0} y={12} height={HEIGHT_PX - 14} />
          </g>
        }
      >
        people there, and how many of them have work
      </Key>
    </ul>
  );
}
