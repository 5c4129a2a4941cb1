import { useEffect, useMemo, useState } from "preact/hooks";
import type { WindowsRequest } from "../../model/harvest/index.ts";
import { HOUR_MS } from "../../model/weather/clock.ts";
import type { Scale } from "../board/calendar.ts";
import { Fold } from "../fold/Fold.tsx";
import { shortDayClockText, utcMs } from "../format/farm-time.ts";
import { useWidth } from "../format/use-width.ts";
import { unitsKept } from "../format/words.ts";
import type { Inputs } from "../state/inputs.ts";
import { FORMS_BELOW_PX } from "./band-names.ts";
import { CourseLegend } from "./CourseLegend.tsx";
import { CoursePlot } from "./CoursePlot.tsx";
import { CourseTable } from "./CourseTable.tsx";
import { Crosshair } from "./Crosshair.tsx";
import type { CourseInput } from "./course-picture.ts";
import { dampSentence } from "./damp-pass.ts";
import { keptShiftMs } from "./kept-line.ts";
import { lossBesideMark, lossSentence, shatteredPct } from "./leaf-loss.ts";
import { type MovedPass, movedPass, type PassPlace } from "./moved-pass.ts";
import { type Dragged, type Pass, PassHandles, PassList, passesOf } from "./Passes.tsx";
import { moistureWbAt, readCourse, readingText } from "./reading.ts";
import { rateSentence } from "./reading-marks.ts";
import { toCourse } from "./to-course.ts";
import { toldMs } from "./told-ms.ts";
import { useRested } from "./use-rested.ts";
import "./course.css";

export interface CourseViewProps extends Omit<CourseInput, "span"> {
  /** The board's hours across, with their place; null where there is none to share. */
  readonly calendar?: Scale | null;
  /** The hour that is read, shared with the board; absent = the course keeps its own. */
  readonly hourMs?: number | null | undefined;
  readonly onHour?: ((ms: number | null) => void) | undefined;
  /** What the passes are moved in; absent = they stay where they are. */
  readonly moves?: (Pick<PassPlace, "inputs" | "endMs"> & Pick<WindowsRequest, "swath">) | undefined;
  readonly onMove?: ((inputs: Inputs, kind: Pass["kind"]) => void) | undefined;
  /** Colours are read again when this changes. */
  readonly theme?: string | undefined;
}

/** The table is written again once the levers have rested, ms. */
const TABLE_RESTS_MS = 250;

/** The same text with "45–60" on one line. */
function rangesKept(text: string): string {
  return text.replace(/(\d)–(\d)/g, "$1\u2060–\u2060$2");
}

function useHour({ hourMs, onHour }: Pick<CourseViewProps, "hourMs" | "onHour">) {
  const [own, setOwn] = useState<number | null>(null);
  return {
    hour: hourMs === undefined ? own : hourMs,
    setHour: (ms: number | null) => {
      setOwn(ms);
      onHour?.(ms);
    },
  };
}

/** Moisture of one cut, hour by hour, with what else happens to it. */
export function CourseView(props: CourseViewProps) {
  const { course, option, route, routes, manner, series, initialMoistureWb, odds, kept } = props;
  const { calendar, moves, onMove, theme } = props;
  const swath = moves?.swath;
  const { ref, widthPx } = useWidth<HTMLDivElement>();
  // Shared only where the board's hours lie inside this picture.
  const fits = calendar != null && calendar.x1 <= widthPx + 1;
  const fromMs = fits ? calendar.fromMs : null;
  const toMs = fits ? calendar.toMs : null;
  const [whole, setWhole] = useState(false);
  const input: CourseInput = useMemo(
    () => ({
      course,
      option,
      route,
      routes,
      manner,
      series,
      initialMoistureWb,
      swath,
      odds,
      kept,
      span: fromMs === null || toMs === null ? undefined : { fromMs, toMs },
      whole,
    }),
    [
      course,
      option,
      route,
      routes,
      manner,
      series,
      initialMoistureWb,
      swath,
      odds,
      kept,
      fromMs,
      toMs,
      whole,
    ],
  );
  const picture = useMemo(() => toCourse(input), [input]);
  const tableInput = useRested(input, TABLE_RESTS_MS);
  const table = useMemo(() => <CourseTable input={tableInput} />, [tableInput]);
  const rate = rateSentence(course.odds, manner);
  const [parts, setParts] = useState(false);
  const { hour, setHour } = useHour(props);
  const [dragged, setDragged] = useState<Dragged | null>(null);
  const [told, setTold] = useState<string | null>(null);
  // What was told of one row does not hold for another.
  useEffect(() => setTold(null), [option.id, route?.route]);

  const cutMs = utcMs(option.courseCutUtc ?? course.hours.startUtc[0] ?? course.usableUntilUtc);
  const readAt = (ms: number) =>
    readCourse(
      {
        course,
        cutMs,
        initialMoistureWb,
        series,
        manner,
        odds,
        kept: kept && { course: kept.course, shiftMs: keptShiftMs(kept, cutMs) },
      },
      ms,
    );
  const textOf = (ms: number) => unitsKept(readingText(readAt(ms)));

  const passes = useMemo(() => passesOf(picture), [picture]);
  const movable = moves !== undefined && onMove !== undefined && route !== null && passes.length > 0;
  const tryMove = (pass: Pass, at: number): MovedPass =>
    moves && route
      ? movedPass({ ...moves, option, route, manner }, pass.kind, new Date(pass.atMs).toISOString(), at)
      : { ok: false, reason: "Passes stay where they are here.", short: "passes stay" };
  // The course is the one of the pass as it lies: the moisture at another hour is near enough to warn by.
  const lossAt = ({ kind }: Pass, atMs: number) => {
    const hourMs = Math.round(atMs / HOUR_MS) * HOUR_MS;
    const wb = swath ? moistureWbAt(course, hourMs) : null;
    const pct = swath ? shatteredPct(kind, swath, wb) : null;
    return {
      beside: lossBesideMark(pct, manner),
      sentence: [swath ? lossSentence(kind, swath, wb, pct, manner) : "", dampSentence(course, atMs)]
        .filter((text) => text !== "")
        .join(" "),
    };
  };
  const drop = (pass: Pass, moved: MovedPass) => {
    setTold(
      moved.ok
        ? `${moved.rule}: set for every row. ${lossAt(pass, moved.atMs).sentence}`.trim()
        : moved.reason,
    );
    if (moved.ok && moved.atMs !== pass.atMs) onMove?.(moved.inputs, pass.kind);
  };
  const passProps = { passes, manner, tryMove, onDrop: drop };
  const ghostText = ({ pass, moved }: Dragged) =>
    moved.ok
      ? `${shortDayClockText(toldMs(moved.atMs), manner)}${lossAt(pass, moved.atMs).beside}, for every row`
      : `not here: ${moved.short}`;
  const status =
    dragged === null
      ? told
      : dragged.moved.ok
        ? `${shortDayClockText(toldMs(dragged.moved.atMs), manner)}: ${dragged.moved.rule}, for every row. ${lossAt(dragged.pass, dragged.moved.atMs).sentence}`
        : dragged.moved.reason;
  return (
    <section class="course" aria-labelledby="course-heading" data-bands={odds ? "drawn" : "none"}>
      <h2 id="course-heading">{picture.heading}</h2>
      <p class="course-sentence">{rangesKept(unitsKept(picture.sentence))}</p>
      {rate === null ? null : <p class="course-sentence">{rate}</p>}
      <div class="course-picture" ref={ref}>
        <CoursePlot
          picture={picture}
          widthPx={widthPx}
          place={picture.shared && calendar ? { x0: calendar.x0, x1: calendar.x1, widthPx } : null}
          parts={parts}
          theme={theme}
          fadeOn={course}
        >
          {(axes) => (
            <>
              <Crosshair
                picture={picture}
                axes={axes}
                hourMs={hour}
                restMs={cutMs}
                textOf={textOf}
                onHour={setHour}
              />
              {movable && (
                <PassHandles
                  {...passProps}
                  picture={picture}
                  axes={axes}
                  dragged={dragged}
                  ghostText={ghostText}
                  onDrag={setDragged}
                />
              )}
            </>
          )}
        </CoursePlot>
      </div>
      {!picture.shared && (whole || picture.days.more) ? (
        <button type="button" class="aid course-days" aria-pressed={whole} onClick={() => setWhole(!whole)}>
          {whole ? "Only the days of drying" : `All ${picture.days.count} days`}
        </button>
      ) : null}
      <p class="course-reading">
        {hour === null ? (
          <>
            <span class="by-mouse">
              Point at the course, or move along it with the arrow keys, to read an hour.
            </span>
            <span class="by-finger">Touch the course to read an hour.</span>
          </>
        ) : (
          textOf(hour)
        )}
      </p>
      {movable && (
        <div class="course-passes">
          <PassList {...passProps} />
          <p class="pass-told" role="status">
            {status ?? "Pull a ringed pass along the course, or use the buttons: it moves for every row."}
          </p>
        </div>
      )}
      <CourseLegend picture={picture} parts={parts} bands={!picture.shared && widthPx < FORMS_BELOW_PX} />
      <label class="check course-parts">
        <input type="checkbox" checked={parts} onChange={() => setParts(!parts)} />
        Show leaf and stem apart
      </label>
      <Fold class="course-details" summary="Table of the course">
        {() => table}
      </Fold>
    </section>
  );
}
