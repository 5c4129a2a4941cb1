import type { TargetedKeyboardEvent, TargetedPointerEvent } from "preact";
import { HOUR_MS } from "../../model/weather/clock.ts";
import type { PlotAxes } from "./CoursePlot.tsx";
import type { CoursePicture } from "./course-picture.ts";
import { hourNear } from "./reading.ts";
import { moistureAt } from "./to-course.ts";

const DAY_H = 24;

/** Hours by which a key moves the hour that is read. */
const STEPS: Readonly<Record<string, number>> = {
  ArrowLeft: -1,
  ArrowDown: -1,
  ArrowRight: 1,
  ArrowUp: 1,
  PageDown: -DAY_H,
  PageUp: DAY_H,
};

/** A hair line that reads one hour: by pointer, finger or keys. It is a slider over the hours of the picture. */
export function Crosshair({
  picture,
  axes,
  hourMs,
  restMs,
  textOf,
  onHour,
}: {
  readonly picture: CoursePicture;
  readonly axes: PlotAxes;
  readonly hourMs: number | null;
  /** Hour from which the keys start. */
  readonly restMs: number;
  readonly textOf: (ms: number) => string;
  readonly onHour: (ms: number | null) => void;
}) {
  const { fromMs, hoursAcross, tissue } = picture;
  const toMs = fromMs + hoursAcross * HOUR_MS;
  const seen = hourMs !== null && hourMs >= fromMs && hourMs <= toMs ? hourMs : null;
  const now = seen ?? hourNear(restMs, fromMs, toMs);
  const move = (ms: number) => onHour(hourNear(ms, fromMs, toMs));
  const point = (event: TargetedPointerEvent<HTMLDivElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    move(fromMs + axes.hoursAt(axes.left + event.clientX - box.left) * HOUR_MS);
  };
  const key = (event: TargetedKeyboardEvent<HTMLDivElement>) => {
    const step = STEPS[event.key];
    if (step !== undefined) move(now + step * HOUR_MS);
    else if (event.key === "Home") move(fromMs);
    else if (event.key === "End") move(toMs);
    else if (event.key === "Escape") onHour(null);
    else return;
    event.preventDefault();
  };
  const x = seen === null ? null : (seen - fromMs) / HOUR_MS;
  const first = tissue[0];
  const last = tissue[tissue.length - 1];
  const onLine = x !== null && first && last && x >= first.x && x <= last.x;
  return (
    <>
      {x !== null && (
        <div
          class="crosshair"
          style={{ left: `${axes.x(x)}px`, top: `${axes.top}px`, height: `${axes.bottom - axes.top}px` }}
        />
      )}
      {onLine && (
        <div
          class="crosshair-point"
          style={{ left: `${axes.x(x)}px`, top: `${axes.y(moistureAt(tissue, x))}px` }}
        />
      )}
      <div
        class="course-slider"
        role="slider"
        tabIndex={0}
        aria-label="Hour of the course"
        aria-valuemin={0}
        aria-valuemax={Math.floor(hoursAcross)}
        aria-valuenow={Math.round((now - fromMs) / HOUR_MS)}
        aria-valuetext={textOf(now)}
        style={{
          left: `${axes.left}px`,
          top: `${axes.top}px`,
          width: `${axes.right - axes.left}px`,
          height: `${axes.bottom - axes.top}px`,
        }}
        onPointerDown={point}
        onPointerMove={point}
        onPointerLeave={(event) => {
          // A finger that is lifted leaves what it read.
          if (event.pointerType === "mouse") onHour(null);
        }}
        onKeyDown={key}
      />
    </>
  );
}
