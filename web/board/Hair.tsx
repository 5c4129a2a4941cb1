import type { Clock } from "../format/farm-time.ts";
import { shortDayClockText } from "../format/farm-time.ts";
import type { Scale } from "./calendar.ts";
import "./hair.css";

/** An upright line at the hour that is looked at, shared with what lies below; the hour stands beside the days' heads. */
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
  return (
    <div aria-hidden="true">
      <div class="board-hair" style={{ left: `${x}px`, height: `${heightPx}px` }} />
      <span class="board-hair-hour" style={{ width: `${scale.x0 - 4}px` }}>
        <span>{shortDayClockText(hourMs, clock)}</span>
      </span>
    </div>
  );
}
