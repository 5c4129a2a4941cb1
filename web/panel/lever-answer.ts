import { inTen } from "../../model/odds/in-ten.ts";
import { HOUR_MS } from "../../model/weather/clock.ts";
import { shortDayClockText } from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { windowTimes } from "../format/window-times.ts";
import { ROUTE_LABELS } from "../format/words.ts";
import type { Choice } from "../state/choice.ts";

/** The chosen row in a line, beside the levers: "Cut Mon 17:00: wilted chop Tue 07:00, 9 in 10 for that window". */
export function leverAnswer({ option, route }: Choice, manner: Manner): string {
  const cut = option.cutUtc === null ? "Standing" : `Cut ${shortDayClockText(option.cutUtc, manner)}`;
  if (route === null) return cut;
  const label = ROUTE_LABELS[route.route];
  const window = route.windows[0];
  if (!window) return `${cut}: no time for ${label}`;
  const chance = window.chance === null ? "" : `, ${inTen(window.chance)} for that window`;
  return `${cut}: ${label} ${shortDayClockText(windowTimes(window).startMs, manner)}${chance}`;
}

/** What a lever did to the chosen row: "2 h sooner"; empty where another row or nothing of it is compared. */
export function leverChange(before: Choice | null, now: Choice, manner: Manner): string {
  if (before === null) return "";
  if (before.option.cutUtc !== now.option.cutUtc) {
    if (before.option.cutUtc === null || now.option.cutUtc === null) return "now another way";
    return `instead of ${shortDayClockText(before.option.cutUtc, manner)}`;
  }
  if (before.route?.route !== now.route?.route)
    return before.route ? `instead of ${ROUTE_LABELS[before.route.route]}` : "";
  const [a, b] = [before.route?.windows[0], now.route?.windows[0]];
  if (!a && !b) return "as before";
  if (!a) return "now it has a time";
  if (!b) return "no time any more";
  const hours = (windowTimes(a).startMs - windowTimes(b).startMs) / HOUR_MS;
  const size = numberText(Math.abs(hours), Math.abs(hours) < 2 ? 1 : 0, manner);
  if (size === "0") return "as soon as before";
  return `${size} h ${hours > 0 ? "sooner" : "later"}`;
}
