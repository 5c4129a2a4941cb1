import type { CropKey } from "../../model/drying/keys.ts";
import type { WindowsAnswer } from "../../model/harvest/answer.ts";
import type { Manner } from "../format/manner.ts";
import type { Selection } from "../state/choice.ts";
import type { SwathRibbon } from "../worker/ribbons.ts";
import type { Scale } from "./calendar.ts";

/** What all rows of a board are drawn from. */
export interface RowContext {
  readonly answer: WindowsAnswer;
  readonly scale: Scale;
  readonly manner: Manner;
  readonly ribbons: Readonly<Record<string, SwathRibbon>>;
  readonly chosen: Selection | null;
  readonly narrow: boolean;
  readonly widthPx: number;
  readonly crop?: CropKey | undefined;
  /** The forecast is old: its chances carry a question mark, in words too. */
  readonly doubted: boolean;
}
