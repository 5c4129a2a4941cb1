import { useMemo } from "preact/hooks";
import { hour12Of, type Manner } from "../format/manner.ts";
import icon from "../icon.svg";
import { LinkNotice } from "../link/CopyLink.tsx";
import { useLink } from "../link/use-link.ts";
import { useOffline } from "../offline/use-offline.ts";
import { BestChangeLine } from "../panel/BestChangeLine.tsx";
import { cutHoursOfDay } from "../panel/cut-hours.ts";
import { FieldPanel } from "../panel/FieldPanel.tsx";
import { Levers } from "../panel/Levers.tsx";
import { SamplePicker, UploadPanel } from "../panel/WeatherPanel.tsx";
import { DemoBanner } from "../place/DemoBanner.tsx";
import { chosen } from "../state/choice.ts";
import { readInputs } from "../state/read-inputs.ts";
import type { State } from "../state/state.ts";
import { weatherAge } from "../states/age.ts";
import { Progress } from "../states/Progress.tsx";
import { Troubles } from "../states/Troubles.tsx";
import { troublesOf } from "../states/trouble.ts";
import { useNow } from "../states/use-now.ts";
import { usePreferences } from "../theme/use-preferences.ts";
import { PageTools } from "../tools/PageTools.tsx";
import { Shown } from "./Shown.tsx";
import { useBestChange } from "./use-best-change.ts";
import { type Beginning, type Dispatch, loadSamples, type Model, useModel } from "./use-model.ts";

interface NoticeProps {
  readonly state: State;
  readonly wrong: number;
  readonly dispatch: Dispatch;
  readonly again: Model["again"];
}

/** Why the picture is not of what the fields now say. Nothing where it is. */
function Notice({ state, wrong, dispatch, again }: NoticeProps) {
  const troubles = troublesOf(state);
  const lines = troubles.some(({ kind }) => kind === "model")
    ? []
    : state.refused.map(({ message }) => message);
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

/** The farm's zone where weather is shown, else the browser's. */
function useManner({ preferences, locale, picture, upload }: State): Manner {
  const { units } = preferences;
  const zone = picture?.source.series.site.timeZone ?? upload.place.timeZone;
  return useMemo(() => ({ units, locale, hour12: hour12Of(locale), zone }), [units, locale, zone]);
}

export function App({ beginning }: { readonly beginning: Beginning }) {
  const { state, dispatch, again, tries } = useModel(beginning);
  const { inputs, picture, selection, samples, source, upload, asked, preferences, locale, nowMs } = state;
  const offline = useOffline(state, dispatch, beginning.link);
  const told = useLink(state, dispatch, beginning.link, offline.ready);
  usePreferences(preferences);
  useNow(dispatch);
  const manner = useManner(state);
  const read = readInputs(inputs, manner);
  const choice = picture && chosen(picture.answer, selection);
  const best = useBestChange(picture, choice, manner, tries);
  const now = { online: state.online, nowMs, keptMs: offline.keptMs };
  const route = choice?.route?.route ?? null;
  const hours = picture && choice && cutHoursOfDay(picture.answer, choice.option, manner);
  const cutHour = hours && {
    ...hours,
    onChoice: (optionId: string) => dispatch({ kind: "select", selection: { optionId, route } }),
  };
  const levers = (
    <Levers
      inputs={inputs}
      read={read}
      dispatch={dispatch}
      manner={manner}
      past={state.past}
      cutHour={cutHour}
    >
      <BestChangeLine best={best} dispatch={dispatch} />
    </Levers>
  );
  return (
    <>
      <DemoBanner source={source} upload={upload} nowMs={nowMs} dispatch={dispatch} />
      <header class="mast">
        <p class="name">
          <img src={icon} alt="" width="28" height="28" /> Swathclock
        </p>
        <div id="samples">
          <SamplePicker samples={samples} source={source} dispatch={dispatch} />
        </div>
        <PageTools state={state} dispatch={dispatch} />
        <nav aria-label="On this page">
          <a href="#field">Field, machines and routes</a>
          <a href="#own">Own weather</a>
        </nav>
      </header>
      <main
        aria-busy={asked !== null}
        data-picture={picture?.id ?? 0}
        data-age={picture ? weatherAge(picture.source.series, nowMs).level : "none"}
      >
        <LinkNotice told={told} />
        <Notice state={state} wrong={wrong(read.errors)} dispatch={dispatch} again={again} />
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
            <FieldPanel inputs={inputs} read={read} dispatch={dispatch} manner={manner} />
            <div id="own">
              <UploadPanel
                upload={upload}
                dispatch={dispatch}
                speech={{ units: preferences.units, locale }}
              />
            </div>
          </div>
        </section>
      </main>
    </>
  );
}

function wrong(errors: object): number {
  return Object.keys(errors).length;
}
