import type { ComponentChildren } from "preact";
import { useMemo, useState } from "preact/hooks";
import { AnswerHead } from "../answer/AnswerHead.tsx";
import { AnswerMore } from "../answer/AnswerMore.tsx";
import { toldOf } from "../answer/told.ts";
import { Board } from "../board/Board.tsx";
import type { Scale } from "../board/calendar.ts";
import { Cautions } from "../cautions/Cautions.tsx";
import { later } from "../fold/later.tsx";
import { type Manner, yearSaid } from "../format/manner.ts";
import { BoardNotes } from "../made/BoardNotes.tsx";
import { PrintHead } from "../print/PrintHead.tsx";
import { usePaper } from "../print/use-paper.ts";
import { boardNowUtc } from "../state/board-from.ts";
import { type Choice, selectionOf } from "../state/choice.ts";
import type { Picture, State } from "../state/state.ts";
import { weatherAge } from "../states/age.ts";
import type { PageState } from "../states/state-chips.ts";
import { WeatherLine } from "../weather/WeatherLine.tsx";
import type { Dispatch, Tries } from "./use-model.ts";

/** The course needs the chart library, the largest part of the page's script: the board does not wait for it. */
const CourseOfRow = later(
  () => import("./CourseOfRow.tsx").then((module) => module.CourseOfRow),
  <p class="no-course">The course is being drawn ...</p>,
);

const Foot = later(
  () => import("./Foot.tsx").then((module) => module.Foot),
  <p class="no-course">How it is worked out comes here.</p>,
);

/** A forecast of more than a day. */
const AGED = { stale: "doubted", expired: "expired" } as const;

export interface ShownProps {
  readonly state: State;
  readonly picture: Picture;
  readonly choice: Choice | null;
  readonly manner: Manner;
  readonly now: PageState;
  readonly dispatch: Dispatch;
  readonly tries: Tries;
  readonly levers: ComponentChildren;
  /** What waiting and rain cost cannot be read. */
  readonly costsWrong: boolean;
}

/** The picture: answer, cautions, board, course with its levers, and how it was worked out. */
export function Shown({
  state,
  picture,
  choice,
  manner,
  now,
  dispatch,
  tries,
  levers,
  costsWrong,
}: ShownProps) {
  const { answer, source, ribbons, inputs, request } = picture;
  const { selection, kept, preferences } = state;
  const [calendar, setCalendar] = useState<Scale | null>(null);
  const [hourMs, setHourMs] = useState<number | null>(null);
  const paper = usePaper();
  const optionId = choice?.option.id ?? null;
  const route = choice?.route?.route ?? null;
  const windowUtc = choice?.windowUtc;
  const selected = useMemo(() => choice && selectionOf(choice), [optionId, route, windowUtc]);
  const told = useMemo(
    () => toldOf(picture, selection, manner, now, costsWrong),
    [picture, selection, manner, now.nowMs, now.online, now.keptMs, costsWrong],
  );
  // The hour under the pointer moves many times a second: what does not show it is not made again.
  const head = useMemo(
    () => (
      <>
        <PrintHead picture={picture} nowMs={now.nowMs} manner={manner} />
        <div class="top">
          <AnswerHead
            picture={picture}
            told={told}
            manner={manner}
            odds={state.odds}
            costsWrong={costsWrong}
            onBest={() => dispatch({ kind: "select", selection: answer.best.overall })}
          />
          <Cautions crop={inputs.crop} route={route} settled={state.inputs.settled} />
        </div>
      </>
    ),
    [picture, told, manner, route, now.nowMs, state.odds, state.inputs.settled, costsWrong],
  );
  const more = useMemo(
    // Its key keeps it, open or not, as it changes its place for paper.
    () => <AnswerMore key="more" told={told} />,
    [told],
  );
  const then = useMemo(() => yearSaid(manner), [manner]);
  const { level } = weatherAge(source.series, now.nowMs);
  const age = level === "stale" || level === "expired" ? AGED[level] : undefined;
  const board = useMemo(
    () => (
      <Board
        answer={answer}
        series={source.series}
        manner={manner}
        selected={selected}
        ribbons={ribbons}
        nowUtc={boardNowUtc(picture) ?? undefined}
        cutHours={request.cutHours ?? undefined}
        crop={request.swath.crop}
        hourMs={hourMs}
        age={age}
        onHour={setHourMs}
        onSelect={(id, key, laterUtc) =>
          dispatch({
            kind: "select",
            selection: { optionId: id, route: key, ...(laterUtc === null ? {} : { windowUtc: laterUtc }) },
          })
        }
        onCalendar={setCalendar}
      />
    ),
    [answer, manner, selected, hourMs, age],
  );
  const foot = useMemo(
    () => (
      <Foot picture={picture} choice={choice} manner={manner} inputs={state.inputs} dispatch={dispatch} />
    ),
    [picture, choice?.option, choice?.route, manner, state.inputs],
  );
  return (
    <>
      {head}
      <BoardNotes picture={picture} made={state.made} dispatch={dispatch} />
      {board}
      {paper ? null : more}
      <WeatherLine source={source} nowMs={now.nowMs} manner={manner} />
      <div class="below">
        <CourseOfRow
          picture={picture}
          choice={choice}
          calendar={calendar}
          manner={then}
          inputs={state.inputs}
          kept={kept}
          toCompare={state.toCompare}
          made={state.made}
          nowMs={now.nowMs}
          dispatch={dispatch}
          tries={tries}
          theme={preferences.theme}
          hourMs={hourMs}
          onHour={setHourMs}
        />
        {levers}
      </div>
      {/* The first sheet is for board and course. */}
      {paper ? more : null}
      {foot}
    </>
  );
}
