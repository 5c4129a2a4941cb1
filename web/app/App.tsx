import { useMemo } from "preact/hooks";
import { localParts } from "../../model/weather/clock.ts";
import { KeyGate } from "../book/KeyGate.tsx";
import { later } from "../fold/later.tsx";
import { hour12Of, type Manner, yearSaid } from "../format/manner.ts";
import { peoplesWords } from "../format/people-words.ts";
import icon from "../icon.svg";
import { LinkNotice } from "../link/CopyLink.tsx";
import { useLink } from "../link/use-link.ts";
import { costsAreWrong } from "../odds/costs-are-wrong.ts";
import { useOffline } from "../offline/use-offline.ts";
import { SamplePicker } from "../panel/SamplePicker.tsx";
import { WeatherBar } from "../place/WeatherBar.tsx";
import { chosen } from "../state/choice.ts";
import { readInputs } from "../state/read-inputs.ts";
import { type State, UNKNOWN_ZONE } from "../state/state.ts";
import { weatherAge } from "../states/age.ts";
import { Progress } from "../states/Progress.tsx";
import { nearDayOf } from "../states/past.ts";
import { Troubles } from "../states/Troubles.tsx";
import { troublesOf } from "../states/trouble.ts";
import { useNow } from "../states/use-now.ts";
import { usePreferences } from "../theme/use-preferences.ts";
import { PageTools } from "../tools/PageTools.tsx";
import { useForecast } from "../weather/use-forecast.ts";
import { useSoil } from "../weather/use-soil.ts";
import type { Beginning } from "./begin.ts";
import { Folds } from "./Folds.tsx";
import { Shown } from "./Shown.tsx";
import { type Dispatch, loadSamples, type Model, useModel } from "./use-model.ts";

/** What can be changed is not needed for the first look: its script comes once the board has been painted. */
const LeversOfRow = later(
  () => import("./LeversOfRow.tsx").then((module) => module.LeversOfRow),
  <p class="no-course">The levers are being laid out ...</p>,
);
const Fields = later(
  () => import("../panel/Fields.tsx").then((module) => module.Fields),
  <p class="no-course">The fields are being laid out ...</p>,
);

interface NoticeProps {
  readonly state: State;
  readonly wrong: number;
  readonly dispatch: Dispatch;
  readonly again: Model["again"];
  readonly manner: Manner;
}

/** Why the picture is not of what the fields now say. Nothing where it is. */
function Notice({ state, wrong, dispatch, again, manner }: NoticeProps) {
  const troubles = troublesOf(state);
  const lines = troubles.some(({ kind }) => kind === "model")
    ? []
    : state.refused.map(({ message }) => peoplesWords(message, manner));
  if (wrong > 0)
    lines.push(
      `${wrong === 1 ? "One field needs" : `${wrong} fields need`} mending below. The board shows the last answer.`,
    );
  return (
    <>
      <div class="notice" role="status">
        {lines.map((line) => (
          <p key={line}>{line}</p>
        ))}
      </div>
      {troubles.length > 0 ? (
        <Troubles
          troubles={troubles}
          onAgain={(kind) => (kind === "samples" ? loadSamples(dispatch) : again())}
        />
      ) : null}
    </>
  );
}

/** The farm's zone where weather is shown, else any: no time is shown then. The locale's clock is asked for once there is a time to show. */
function useManner({ preferences, locale, picture, nowMs }: State, settled: boolean): Manner {
  const { units } = preferences;
  const zone = picture?.source.series.site.timeZone ?? UNKNOWN_ZONE;
  const dated = picture !== null && picture.source.kind !== "sample";
  const thisYear = dated ? localParts(nowMs, zone).year : undefined;
  const nearDay = picture === null ? undefined : nearDayOf(picture.source, nowMs);
  return useMemo(
    () => ({ units, locale, hour12: settled && hour12Of(locale), zone, thisYear, nearDay }),
    [units, locale, zone, settled, thisYear, nearDay],
  );
}

export function App({ beginning }: { readonly beginning: Beginning }) {
  const { state, dispatch, again, tries } = useModel(beginning);
  const { inputs, picture, selection, samples, source, upload, asked, preferences, locale, nowMs } = state;
  const offline = useOffline(state, dispatch, beginning.link);
  const told = useLink(state, dispatch, beginning.link, offline.ready);
  const askForecast = useForecast(state, dispatch, beginning.link.forecast);
  const soil = useSoil(state, dispatch);
  const speech = { units: preferences.units, locale };
  usePreferences(preferences);
  useNow(dispatch);
  // Fields and levers are drawn once there is an answer, or none to wait for: the board is what is looked at first.
  const settled = picture !== null || state.samplesError !== null || state.refused.length > 0;
  const manner = useManner(state, settled);
  const then = useMemo(() => yearSaid(manner), [manner]);
  const read = readInputs(inputs, manner);
  const signedIn = () => {
    loadSamples(dispatch);
    const { failed } = state.forecast;
    if (failed !== null) askForecast(failed.place);
  };
  const choice = picture && chosen(picture.answer, selection);
  const now = { online: state.online, nowMs, keptMs: offline.keptMs };
  const levers = settled && (
    <LeversOfRow
      inputs={inputs}
      read={read}
      dispatch={dispatch}
      manner={then}
      past={state.past}
      picture={picture}
      choice={choice}
      tries={tries}
      soil={soil}
    />
  );
  return (
    <>
      <WeatherBar state={state} speech={speech} dispatch={dispatch} ask={askForecast} />
      <header class="mast">
        <p class="name">
          <img src={icon} alt="" width="28" height="28" /> Swathclock
        </p>
        <SamplePicker samples={samples} source={source} dispatch={dispatch} />
        <PageTools state={state} dispatch={dispatch} />
        <nav aria-label="On this page">
          <a href="#field">Field</a>
          <a href="#own">Own weather</a>
        </nav>
      </header>
      <main
        aria-busy={asked !== null}
        data-picture={picture?.id ?? 0}
        data-odds={picture?.answer.odds ? "told" : "none"}
        data-age={picture ? weatherAge(picture.source.series, nowMs).level : "none"}
      >
        <KeyGate onSignedIn={signedIn} />
        <LinkNotice told={told} />
        <Notice state={state} wrong={wrong(read.errors)} dispatch={dispatch} again={again} manner={manner} />
        <Progress busy={asked !== null} done={null} />
        {picture ? (
          <Shown
            state={state}
            picture={picture}
            choice={choice}
            manner={manner}
            now={now}
            dispatch={dispatch}
            tries={tries}
            levers={levers}
            costsWrong={costsAreWrong(read.errors)}
          />
        ) : (
          <>
            <h1 class="waiting">
              {state.samplesError === null ? "Working out the cut times ..." : "No weather yet"}
            </h1>
            {levers}
          </>
        )}
        {settled ? (
          <Folds
            state={state}
            picture={picture}
            choice={choice}
            manner={manner}
            dispatch={dispatch}
            tries={tries}
            ask={askForecast}
          />
        ) : null}
        <section class="inputs" id="field" aria-label="Field, machines, routes and weather">
          <h2>Field, machines, routes and weather</h2>
          {settled ? (
            <Fields
              inputs={inputs}
              read={read}
              dispatch={dispatch}
              manner={manner}
              upload={upload}
              source={picture?.source ?? null}
              speech={speech}
              thisYear={localParts(nowMs, manner.zone).year}
            />
          ) : null}
        </section>
      </main>
    </>
  );
}

function wrong(errors: object): number {
  return Object.keys(errors).length;
}
