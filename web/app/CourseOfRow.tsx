import { useMemo, useRef, useState } from "preact/hooks";
import type { Scale } from "../board/calendar.ts";
import { Compare } from "../compare/Compare.tsx";
import { courseCutMs, cutUtcOf } from "../compare/kept-cut.ts";
import { cutOf } from "../compare/presets.ts";
import { CourseView } from "../course/CourseView.tsx";
import type { Alignment, KeptCourse } from "../course/course-picture.ts";
import { swathBands } from "../course/swath-bands.ts";
import { later } from "../fold/later.tsx";
import { utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { MadeCutOfRow } from "../made/MadeCutOfRow.tsx";
import type { Action } from "../state/action.ts";
import { type Choice, selectionOf } from "../state/choice.ts";
import type { Inputs } from "../state/inputs.ts";
import type { Preset } from "../state/preset.ts";
import type { Kept, Picture, State, Theme } from "../state/state.ts";
import type { Tries } from "./use-model.ts";

const RowOdds = later(
  () => import("../odds/RowOdds.tsx").then((module) => module.RowOdds),
  <div class="row-odds" />,
);

export interface CourseOfRowProps {
  readonly picture: Picture;
  readonly choice: Choice | null;
  readonly calendar: Scale | null;
  readonly manner: Manner;
  /** What the fields say now; absent = what the picture was worked out from. */
  readonly inputs?: Inputs;
  readonly kept?: Kept | null;
  /** What a link asks to be compared with. */
  readonly toCompare?: Preset | null;
  /** Cuts that lie, and the page's clock, UTC ms; absent = none can be made here. */
  readonly made?: State["made"];
  readonly nowMs?: number;
  /** Absent = nothing can be moved or kept. */
  readonly dispatch?: (action: Action) => void;
  /** Absent = nothing can be compared. */
  readonly tries?: Tries;
  readonly theme?: Theme;
  /** The hour that is read, shared with the board. */
  readonly hourMs?: number | null;
  readonly onHour?: (ms: number | null) => void;
}

/** The kept cut as the course draws it. */
function keptCourse(kept: Kept | null, align: Alignment): KeptCourse | undefined {
  if (kept === null) return undefined;
  return {
    course: kept.course,
    mowMs: utcMs(cutUtcOf(kept)),
    cutMs: courseCutMs(kept),
    initialMoistureWb: kept.request.swath.initialMoistureWb,
    align,
  };
}

/** A row that lies in a swath, in its picture, with its course. */
interface DrawnRow {
  readonly picture: Picture;
  readonly choice: Choice;
  readonly now: Kept;
}

/** The course of a row that lies in a swath, with what it is compared to. */
function SwathCourse({
  picture,
  choice,
  now,
  calendar,
  manner,
  inputs,
  kept = null,
  toCompare = null,
  made,
  nowMs,
  dispatch,
  tries,
  theme,
  hourMs,
  onHour,
}: CourseOfRowProps & DrawnRow) {
  const { request, source, answer } = picture;
  const { option, route } = choice;
  const [align, setAlign] = useState<Alignment>("calendar");
  const beside = useMemo(() => keptCourse(kept, align), [kept, align]);
  const routes = useMemo(() => swathBands(request), [request]);
  return (
    <>
      {dispatch && made && nowMs !== undefined ? (
        <MadeCutOfRow
          key={option.id}
          picture={picture}
          choice={choice}
          made={made}
          nowMs={nowMs}
          manner={manner}
          dispatch={dispatch}
        />
      ) : null}
      <CourseView
        course={now.course}
        option={option}
        route={route}
        routes={routes}
        manner={manner}
        series={source.series}
        initialMoistureWb={request.swath.initialMoistureWb}
        // What lies since before the board's first day is followed from its cut on.
        calendar={option.made ? null : calendar}
        odds={now.course.odds?.moistureWb}
        kept={beside}
        theme={theme}
        hourMs={hourMs}
        onHour={onHour}
        moves={{
          inputs: inputs ?? picture.inputs,
          swath: request.swath,
          endMs: utcMs(answer.usableUntilUtc),
        }}
        onMove={
          dispatch &&
          ((moved, kind) => {
            // The row stays chosen, whatever the new rule makes the best.
            dispatch({ kind: "select", selection: selectionOf(choice) });
            dispatch({ kind: "inputs", what: `pass ${kind}`, inputs: moved });
          })
        }
      />
      <RowOdds picture={picture} choice={choice} manner={manner} />
      {dispatch && tries && (
        <Compare
          now={now}
          kept={kept}
          align={align}
          manner={manner}
          tries={tries}
          asked={toCompare}
          onAskedInVain={() => dispatch({ kind: "to-compare", preset: null })}
          onAlign={setAlign}
          onKeep={(next) => {
            if (next === null) setAlign("calendar");
            else dispatch({ kind: "select", selection: selectionOf(choice) });
            dispatch({ kind: "keep", kept: next });
          }}
        />
      )}
    </>
  );
}

/** The course before stays until the next is there: the page keeps its height, and nothing jumps under a thumb. */
function HeldCourse(props: CourseOfRowProps & { readonly choice: Choice }) {
  const { picture, choice } = props;
  const last = useRef<DrawnRow | null>(null);
  const now = useMemo(() => cutOf(picture, choice), [picture, choice.option, choice.route]);
  if (now !== null) last.current = { picture, choice, now };
  if (last.current === null) return <p class="no-course">The course of this cut is being worked out ...</p>;
  const coming = now === null;
  return (
    <div class={coming ? "course-coming" : undefined} aria-busy={coming}>
      <SwathCourse {...props} {...last.current} />
    </div>
  );
}

/** The course of the chosen row, or in words why it has none. */
export function CourseOfRow(props: CourseOfRowProps) {
  const { choice } = props;
  if (choice === null)
    return <p class="no-course">There is no cut to offer in this weather, so there is no course to show.</p>;
  if (choice.option.kind === "standing") {
    return (
      <section class="no-course">
        <h2>Taken standing</h2>
        <p>Nothing lies in a swath, so there is no course to show.</p>
        <ul>
          {(choice.route?.why ?? []).map(({ text }) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
        <RowOdds picture={props.picture} choice={choice} manner={props.manner} />
      </section>
    );
  }
  return <HeldCourse {...props} choice={choice} />;
}
