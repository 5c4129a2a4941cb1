import { useMemo, useState } from "preact/hooks";
import { AnswerHead } from "../answer/AnswerHead.tsx";
import { HowWorked } from "../answer/HowWorked.tsx";
import { Board } from "../board/Board.tsx";
import type { Scale } from "../board/calendar.ts";
import { Cautions } from "../cautions/Cautions.tsx";
import { hour12Of, type Manner } from "../format/manner.ts";
import icon from "../icon.svg";
import { FieldPanel } from "../panel/FieldPanel.tsx";
import { Levers } from "../panel/Levers.tsx";
import { SamplePicker, UploadPanel } from "../panel/WeatherPanel.tsx";
import { chosen } from "../state/choice.ts";
import { readInputs } from "../state/read-inputs.ts";
import type { Picture, State } from "../state/state.ts";
import { later } from "./later.tsx";
import { type Beginning, type Dispatch, loadSamples, useModel } from "./use-model.ts";

/** The course needs the chart library, the largest part of the page's script: the board does not wait for it. */
const CourseOfRow = later(
  () => import("./CourseOfRow.tsx").then((module) => module.CourseOfRow),
  <p class="no-course">The course is being drawn ...</p>,
);

function Demo({ source }: Pick<State, "source">) {
  if (source?.kind !== "sample") return null;
  return (
    <aside class="demo" aria-label="Demonstration">
      <strong>Invented demonstration farm and weather.</strong> <a href="#own">Use my own</a>
    </aside>
  );
}

/** Why the picture is not of what the fields now say. Nothing where it is. */
function Notice({
  state,
  wrong,
  dispatch,
}: {
  readonly state: State;
  readonly wrong: number;
  readonly dispatch: Dispatch;
}) {
  const { samplesError, refused, picture } = state;
  const lines = refused.map(({ message }) => message);
  if (wrong > 0)
    lines.push(
      `${wrong === 1 ? "One field needs" : `${wrong} fields need`} mending below. The board shows the last answer.`,
    );
  return (
    <div class="notice" role="status">
      {lines.map((line) => (
        <p key={line}>{line}</p>
      ))}
      {samplesError !== null && picture === null ? (
        <p>
          The demonstration weather could not be loaded: {samplesError}.{" "}
          <button type="button" onClick={() => loadSamples(dispatch)}>
            Try again
          </button>
        </p>
      ) : null}
    </div>
  );
}

function Shown({
  picture,
  selection,
  dispatch,
  levers,
  units,
  locale,
}: {
  readonly picture: Picture;
  readonly units: Manner["units"];
  readonly locale: string;
  readonly selection: State["selection"];
  readonly dispatch: Dispatch;
  readonly levers: preact.ComponentChildren;
}) {
  const { answer, source, ribbons, inputs } = picture;
  const { series } = source;
  const { timeZone: zone } = series.site;
  const manner = useMemo<Manner>(
    () => ({ units, locale, hour12: hour12Of(locale), zone }),
    [units, locale, zone],
  );
  const choice = chosen(answer, selection);
  const [calendar, setCalendar] = useState<Scale | null>(null);
  const selected = choice && { optionId: choice.option.id, route: choice.route?.route ?? null };
  return (
    <>
      <div class="top">
        <AnswerHead
          picture={picture}
          selection={selection}
          manner={manner}
          onBest={() => dispatch({ kind: "select", selection: answer.best.overall })}
        />
        <Cautions crop={inputs.crop} route={choice?.route?.route ?? null} />
      </div>
      <Board
        answer={answer}
        series={series}
        manner={manner}
        selected={selected}
        ribbons={ribbons}
        onSelect={(optionId, route) => dispatch({ kind: "select", selection: { optionId, route } })}
        onCalendar={setCalendar}
      />
      <div class="below">
        <CourseOfRow picture={picture} choice={choice} calendar={calendar} manner={manner} />
        {levers}
      </div>
      <HowWorked picture={picture} />
    </>
  );
}

export function App({ beginning }: { readonly beginning: Beginning }) {
  const [state, dispatch] = useModel(beginning);
  const { inputs, picture, selection, samples, source, upload, asked } = state;
  const read = readInputs(inputs);
  const wrong = Object.keys(read.errors).length;
  const levers = <Levers inputs={inputs} read={read} dispatch={dispatch} />;
  return (
    <>
      <Demo source={source} />
      <header class="mast">
        <p class="name">
          <img src={icon} alt="" width="28" height="28" /> Swathclock
        </p>
        <SamplePicker samples={samples} source={source} dispatch={dispatch} />
        <nav aria-label="On this page">
          <a href="#field">Field, machines and routes</a>
          <a href="#own">Own weather</a>
        </nav>
      </header>
      <main aria-busy={asked !== null} data-picture={picture?.id ?? 0}>
        <Notice state={state} wrong={wrong} dispatch={dispatch} />
        {picture ? (
          <Shown
            picture={picture}
            selection={selection}
            dispatch={dispatch}
            levers={levers}
            units={state.preferences.units}
            locale={state.locale}
          />
        ) : (
          <>
            <h1 class="waiting">
              {state.samplesError === null ? "Working out the cut times ..." : "No weather yet"}
            </h1>
            {levers}
          </>
        )}
        <section class="inputs" id="field" aria-label="Field, machines, routes and weather">
          <h2>Field, machines, routes and weather</h2>
          <div class="columns">
            <FieldPanel inputs={inputs} read={read} dispatch={dispatch} />
            <div id="own">
              <UploadPanel upload={upload} dispatch={dispatch} />
            </div>
          </div>
        </section>
      </main>
    </>
  );
}
