import type { CutOptionAnswer } from "../../model/harvest/answer.ts";
import type { RouteKey } from "../../model/harvest/keys.ts";
import { briefDayClockText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { windowTimes } from "../format/window-times.ts";
import { ROUTE_SHORT, sentenceCase } from "../format/words.ts";
import type { BoardVessel } from "./row-vessels.ts";
import { type Box, LEAST_TOUCH_PX } from "./vessels.ts";

/**
 * On a phone windows may stand closer than a thumb is wide. Then the chosen row names its windows once more under itself,
 * each as wide as a thumb needs: a touch among them chooses the row, the next one the window.
 */
export interface WindowChoice extends Box {
  readonly vessel: BoardVessel;
  /** "Wrapped". */
  readonly label: string;
  /** "Fri 13:00". */
  readonly from: string;
}

export interface WindowChoices {
  readonly choices: readonly WindowChoice[];
  /** The whole of it under its row, px; 0 where every window of the row is as wide as a thumb. */
  readonly heightPx: number;
}

const NO_CHOICES: WindowChoices = { choices: [], heightPx: 0 };

/** Room for a vessel with "Sat 26 12:30" beside it, or "Sat 26 12:30 pm", px. */
const LEAST_CHOICE_PX = { clock24: 126, clock12: 146 } as const;
const EDGE_PX = 6;
const GAP_PX = 8;

/** Whether a row has a window that a thumb may miss. */
export function isCrowded(vessels: readonly BoardVessel[]): boolean {
  return vessels.some(({ touchX0, touchX1 }) => touchX1 - touchX0 < LEAST_TOUCH_PX - 0.01);
}

/** The windows of a crowded row in the order of their places, in lines from one edge of the board to the other. */
export function windowChoices(
  option: CutOptionAnswer,
  vessels: readonly BoardVessel[],
  top: number,
  widthPx: number,
  manner: Manner,
): WindowChoices {
  if (!isCrowded(vessels)) return NO_CHOICES;
  const roomPx = widthPx - 2 * EDGE_PX + GAP_PX;
  const leastPx = manner.hour12 ? LEAST_CHOICE_PX.clock12 : LEAST_CHOICE_PX.clock24;
  const most = Math.max(1, Math.floor(roomPx / (leastPx + GAP_PX)));
  const lines = Math.ceil(vessels.length / most);
  const aLine = Math.ceil(vessels.length / lines);
  const stepPx = roomPx / aLine;
  const choices = vessels.map((vessel, i) => {
    const x0 = EDGE_PX + (i % aLine) * stepPx;
    const y0 = top + GAP_PX / 2 + Math.floor(i / aLine) * (LEAST_TOUCH_PX + GAP_PX);
    const window = windowOf(option, vessel);
    return {
      vessel,
      label: sentenceCase(ROUTE_SHORT[vessel.route]),
      from: briefDayClockText(window ? windowTimes(window).startMs : vessel.startMs, manner),
      ...{ x0, x1: x0 + stepPx - GAP_PX, y0, y1: y0 + LEAST_TOUCH_PX },
    };
  });
  return { choices, heightPx: lines * (LEAST_TOUCH_PX + GAP_PX) + GAP_PX / 2 };
}

function windowOf(
  { routes }: CutOptionAnswer,
  { route, key }: { readonly route: RouteKey; readonly key: string },
) {
  const windows = routes.find((one) => one.route === route)?.windows ?? [];
  return windows.find(({ startUtc }) => key.endsWith(startUtc));
}
