import { MINUTE_MS } from "../../model/weather/clock.ts";
import { type Moment, utcMs } from "../format/farm-time.ts";
import { TIMES_TO_MIN } from "../format/manner.ts";

/** A lone moment as the page tells it: up to the next five minutes, for a course is not known to one. */
export function toldMs(moment: Moment): number {
  const stepMs = TIMES_TO_MIN * MINUTE_MS;
  return Math.ceil(utcMs(moment) / stepMs) * stepMs;
}
