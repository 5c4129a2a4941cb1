import type { Clock } from "../format/farm-time.ts";
import { shortDayClockText } from "../format/farm-time.ts";
import type { Scale } from "./calendar.ts";

/** An upright line at the hour that is looked at, with the hour over it; shared with what lies below. */
export function Hair({
  hourMs,
  scale,
  heightPx,
  clock,
}: {
  readonly hourMs: number;
  readonly scale: Scale;
  readonly heightPx: number;
  readonly clock: Clock;
}) {
  if (hourMs < scale.fromMs || hourMs > scale.toMs) return null;
  const x = scale.x(hourMs);
  const middle = (scale.x0 + scale.x1) / 2;
  return (
    <div class="board-hair" style={{ left: `${x}px`, height: `${heightPx}px` }} aria-hidden="true">
      <span class={x > middle ? "left" : "right"}>{shortDayClockText(hourMs, clock)}</span>
    </div>
  );
}
