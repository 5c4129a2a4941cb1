import type { RouteKey } from "../../model/harvest/keys.ts";
import { HazardKeys } from "./HazardPattern.tsx";
import type { HazardShade } from "./hazard-shades.ts";
import { BEST_WORD } from "./rows.ts";
import { Vessel } from "./Vessel.tsx";
import "./legend.css";

interface LegendProps {
  readonly routes: readonly { readonly route: RouteKey; readonly label: string }[];
  /** Whether any window carries a chance. */
  readonly chances: boolean;
  /** True while the chances are not worked out yet. */
  readonly waiting: boolean;
  /** What the chances under the rain are of; null where there are none. */
  readonly rain: string | null;
  /** What the rows are shaded with. */
  readonly shades: readonly HazardShade[];
}

/** Taken fresh: nothing lowers nitrate between the field and the animal. */
const LAB_FIRST: readonly RouteKey[] = ["green-chop", "grazing"];

const BOX = { x0: 2, x1: 28, y0: 2, y1: 24 };

/** The key to the board's marks. */
export function Legend({ routes, chances, waiting, rain, shades }: LegendProps) {
  const sample = routes[0]?.route ?? "dry-hay";
  return (
    <ul class="board-legend" aria-label="Key to the board">
      {routes.map(({ route, label }) => (
        <li key={route}>
          <svg width={30} height={26} aria-hidden="true">
            <Vessel
              route={route}
              box={BOX}
              chance={null}
              rainedOn={false}
              labelled={true}
              heavy={false}
              doubled={false}
            />
          </svg>
          {label}
          {LAB_FIRST.includes(route) ? <strong class="lab-first">lab test first</strong> : null}
        </li>
      ))}
      <li>
        <svg width={30} height={26} aria-hidden="true">
          <Vessel
            route={sample}
            box={BOX}
            chance={null}
            rainedOn={true}
            labelled={false}
            heavy={false}
            doubled={false}
          />
        </svg>
        after rain on the swath
      </li>
      <li>
        <svg width={18} height={26} aria-hidden="true">
          <Vessel
            route={sample}
            box={{ x0: 2, x1: 14, y0: 12, y1: 24 }}
            chance={null}
            rainedOn={false}
            labelled={false}
            heavy={false}
            doubled={false}
          />
        </svg>
        later window
      </li>
      <li>
        <svg width={24} height={20} aria-hidden="true">
          <rect class="hour-block" x={1} y={2} width={22} height={16} rx={4} />
        </svg>
        the cut looked at
      </li>
      <li>
        <svg width={40} height={20} aria-hidden="true">
          <rect class="key-best" x={1} y={2} width={38} height={16} rx={4} />
          <text class="key-best-word" x={6} y={14}>
            {BEST_WORD}
          </text>
        </svg>
        the best of all
      </li>
      <li>
        <svg width={16} height={26} aria-hidden="true">
          <path class="cut-mark" d="M8 24V4m-6 0h12l-6 8z" />
        </svg>
        mowing starts
      </li>
      <HazardKeys shades={shades} />
      <li class="legend-note">
        {chances
          ? "Number and fill: chance of that window, in 10"
          : waiting
            ? "Chances are not worked out yet"
            : "One weather alone: no chance is stated"}
      </li>
      {rain !== null && <li class="legend-note">{rain}</li>}
    </ul>
  );
}
