import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import type { Scale } from "../board/calendar.ts";
import { Fold } from "../fold/Fold.tsx";
import { useWidth } from "../format/use-width.ts";
import { unitsKept } from "../format/words.ts";
import { CourseTable } from "./CourseTable.tsx";
import { drawCourse, OPINION_DASHES, PART_INKS } from "./course-chart.ts";
import { readInks } from "./draw-ground.ts";
import { type CourseInput, toCourse } from "./to-course.ts";
import "./course.css";

export interface CourseViewProps extends Omit<CourseInput, "span"> {
  /** The board's hours across, with their place; null where there is none to share. */
  readonly calendar?: Scale | null;
}

const NARROW_BELOW_PX = 560;

function LineKey({
  widthPx,
  dash,
  pale,
}: {
  readonly widthPx: number;
  readonly dash?: string;
  readonly pale?: boolean;
}) {
  return (
    <svg width={34} height={12} aria-hidden="true">
      <path
        class={pale ? "key-line pale" : "key-line"}
        d="M1 6H33"
        stroke-width={widthPx}
        stroke-dasharray={dash}
      />
    </svg>
  );
}

/** Moisture of one cut, hour by hour, with what else happens to it. */
export function CourseView(props: CourseViewProps) {
  const { course, option, route, routes, manner, series, initialMoistureWb, calendar } = props;
  const { ref, widthPx } = useWidth<HTMLDivElement>();
  // Shared only where the board's hours lie inside this picture.
  const fits = calendar != null && calendar.x1 <= widthPx + 1;
  const fromMs = fits ? calendar.fromMs : null;
  const toMs = fits ? calendar.toMs : null;
  const input = useMemo(
    () => ({
      course,
      option,
      route,
      routes,
      manner,
      series,
      initialMoistureWb,
      span: fromMs === null || toMs === null ? undefined : { fromMs, toMs },
    }),
    [course, option, route, routes, manner, series, initialMoistureWb, fromMs, toMs],
  );
  const picture = useMemo(() => toCourse(input), [input]);
  const [parts, setParts] = useState(false);
  const canvasRef = useRef<HTMLCanvasElement>(null);
  const narrow = widthPx > 0 && widthPx < NARROW_BELOW_PX;
  const measured = widthPx > 0;
  useEffect(() => {
    const canvas = canvasRef.current;
    if (!canvas || !measured) return;
    const place = picture.shared && calendar ? { x0: calendar.x0, x1: calendar.x1, widthPx } : null;
    const chart = drawCourse(canvas, picture, readInks(canvas), narrow, place, parts);
    let gone = false;
    // Canvas text is drawn in whatever type is loaded by then: once more when the page's own has come.
    document.fonts.ready.then(() => {
      if (!gone) chart.update("none");
    });
    return () => {
      gone = true;
      chart.destroy();
    };
  }, [picture, narrow, parts, measured, calendar?.x0, calendar?.x1, picture.shared ? widthPx : 0]);
  return (
    <section class="course" aria-labelledby="course-heading">
      <h2 id="course-heading">{picture.heading}</h2>
      <p class="course-sentence">{unitsKept(picture.sentence)}</p>
      <div class="course-picture" ref={ref}>
        <canvas ref={canvasRef} role="img" aria-label={picture.sentence}>
          {picture.sentence}
        </canvas>
      </div>
      <ul class="course-legend" aria-label="Key to the course">
        <li>
          <LineKey widthPx={2.8} />
          moisture of the swath
        </li>
        {picture.opinions.map(({ name }, i) => (
          <li key={name}>
            <LineKey widthPx={1.2} dash={(OPINION_DASHES[i % OPINION_DASHES.length] ?? []).join(" ")} />
            {name}
          </li>
        ))}
        <li>
          <LineKey widthPx={0.9} pale={true} />
          as dry as the air allows
        </li>
        <li>
          <svg width={10} height={14} aria-hidden="true">
            <path class="key-drop" d="M5 2C6.5 5 8 6.5 8 8.5A3 3 0 0 1 2 8.5C2 6.5 3.5 5 5 2Z" />
          </svg>
          dew
        </li>
        <li>
          <svg width={14} height={14} aria-hidden="true">
            <rect class="key-rain" x={1} y={0} width={5} height={12} />
            <rect class="key-rain" x={7} y={0} width={5} height={7} />
          </svg>
          rain, each hour
        </li>
        {parts &&
          (["leaf", "stem"] as const).map((part) => (
            <li key={part}>
              <svg width={34} height={12} aria-hidden="true">
                <path d="M1 6H33" stroke={PART_INKS[part]} stroke-width={1.6} />
              </svg>
              {part}
            </li>
          ))}
        {picture.windows.length > 0 && (
          <li>
            <svg width={20} height={14} aria-hidden="true">
              <rect class="key-window" x={1} y={6} width={18} height={4} />
            </svg>
            hours to work in
          </li>
        )}
      </ul>
      <label class="check course-parts">
        <input type="checkbox" checked={parts} onChange={() => setParts(!parts)} />
        Show leaf and stem apart
      </label>
      <Fold class="course-details" summary="Table of the course">
        {() => <CourseTable input={input} />}
      </Fold>
    </section>
  );
}
