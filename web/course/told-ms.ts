import { stepped } from "../../model/harvest/words.ts";
import { type Moment, utcMs } from "../format/farm-time.ts";
import { TIMES_TO_MIN } from "../format/manner.ts";

/** A lone moment as the page tells it, wherever it does: up to the next five minutes, for a course is not known to one. */
export function toldMs(moment: Moment): number {
  return stepped(utcMs(moment), TIMES_TO_MIN);
}
