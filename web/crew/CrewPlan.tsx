import { del, get, set } from "idb-keyval";
import { useEffect, useMemo, useState } from "preact/hooks";
import type { CrewJobAnswer, CrewPlanAnswer, CrewPlanRequest, CrewProgress } from "../../model/crew/index.ts";
import type { FoldsProps } from "../app/Folds.tsx";
import { Fold } from "../fold/Fold.tsx";
import { dayClockText, shortDayClockText } from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { useWidth } from "../format/use-width.ts";
import { CrewChart, jobKey } from "./CrewChart.tsx";
import { CrewFields, draftFaulty } from "./CrewFields.tsx";
import { chanceWords } from "./chance-words.ts";
import { toCrewChart } from "./crew-chart.ts";
import { type CrewDraft, draftOf, readDraft, requestOf } from "./crew-draft.ts";
import { crewSentence, gapSentence } from "./crew-sentences.ts";
import { printSheets } from "./DaySheets.tsx";
import { daySheets } from "./day-sheets.ts";
import { demoCrew, withInventedMembers } from "./demo-crew.ts";
import { saveFile, saveWritten } from "./export-plan.ts";
import { JobPanel } from "./JobPanel.tsx";
import { PlanTold } from "./PlanTold.tsx";
import { useCrew } from "./use-crew.ts";
import "./crew.css";

export type CrewPlanProps = Pick<FoldsProps, "picture" | "manner">;

const KEY = "swathclock.crew";
const DEMO_ID = "demo-crew";

function movedBy(job: CrewJobAnswer, byMs: number): CrewJobAnswer {
  const shift = (utc: string) => new Date(Date.parse(utc) + byMs).toISOString().replace(".000Z", "Z");
  return { ...job, startUtc: shift(job.startUtc), endUtc: shift(job.endUtc) };
}

function progressWords(progress: CrewProgress | null, manner: Manner): string {
  if (progress === null || progress.value === null) return "Working out the windows ...";
  const gap =
    progress.gap === null ? "" : `, at most ${numberText(progress.gap * 100, 1, manner)} % short of the best`;
  return `Searching, ${Math.round(progress.elapsedS)} s${gap}`;
}

function Exports(props: {
  planId: string;
  plan: CrewPlanAnswer;
  jobs: readonly CrewJobAnswer[];
  request: CrewPlanRequest | null;
  manner: Manner;
}) {
  const { plan, jobs, request, manner, planId } = props;
  const [trouble, setTrouble] = useState<string | null>(null);
  const save = async (kind: "calendar" | "csv") => setTrouble(await saveWritten(kind, plan, planId));
  const sheets = daySheets(plan, jobs, manner);
  return (
    <div class="crew-buttons">
      <button type="button" class="aid" onClick={() => printSheets(sheets, planId === DEMO_ID)}>
        Print a day sheet for each machine
      </button>
      <button type="button" class="aid" onClick={() => save("calendar")}>
        Calendar file
      </button>
      <button type="button" class="aid" onClick={() => save("csv")}>
        CSV
      </button>
      <button
        type="button"
        class="aid"
        onClick={() =>
          saveFile(
            "crew-plan-request.json",
            new Blob([JSON.stringify(request, null, 1)], { type: "application/json" }),
          )
        }
      >
        JSON of the question
      </button>
      {trouble === null ? null : <p role="alert">{trouble}</p>}
    </div>
  );
}

/** The contractor's plan: many fields, few machines. Opens on an invented crew in the weather of the page. */
export function CrewPlan({ picture, manner: pageManner }: CrewPlanProps) {
  const crew = useCrew();
  const { ref, widthPx } = useWidth<HTMLDivElement>();
  const [moved, setMoved] = useState<readonly CrewJobAnswer[] | null>(null);
  const [chosen, setChosen] = useState<string | null>(null);
  const source = picture?.source ?? null;
  const series = useMemo(() => {
    if (source === null) return null;
    return source.kind === "sample" ? withInventedMembers(source.series) : source.series;
  }, [source]);
  const [draft, setDraft] = useState<CrewDraft | null>(null);
  const begin = (next: CrewDraft) => {
    if (series === null) return;
    const asked = requestOf(next, series);
    setRequest(asked);
    setMoved(null);
    setHeld([]);
    crew.plan(asked);
  };
  const own = draft !== null && draft.planId !== DEMO_ID;
  useEffect(() => {
    if (series === null) return;
    let gone = false;
    const use = (kept: CrewDraft | null) => {
      if (gone) return;
      const next = draft ?? kept ?? draftOf(demoCrew(series), DEMO_ID);
      setDraft(next);
      begin(next);
    };
    get<unknown>(KEY).then(
      (kept) => use(readDraft(kept)),
      () => use(null),
    );
    return () => {
      gone = true;
    };
  }, [series]);
  const [request, setRequest] = useState<CrewPlanRequest | null>(null);
  const [held, setHeld] = useState<readonly CrewJobAnswer[]>([]);
  const { answer, busy, progress, issues, checked } = crew;
  const manner: Manner = answer === null ? pageManner : { ...pageManner, zone: answer.timeZone };
  const jobs = moved ?? answer?.jobs ?? [];
  const chart = useMemo(
    () =>
      answer === null || series === null || widthPx === 0
        ? null
        : toCrewChart(answer, jobs, series, Math.max(160, widthPx - (widthPx > 620 ? 170 : 104))),
    [answer, jobs, series, widthPx],
  );
  const sentence = answer === null ? "" : crewSentence(answer);
  const wrong = new Set((checked?.faults ?? []).map(({ fieldId, op }) => `${fieldId}/${op}`));
  const home = (fieldId: string) => {
    const last = jobs.filter((job) => job.fieldId === fieldId).at(-1);
    if (last === undefined) return "left standing";
    const told = (checked?.replay ?? answer?.replay)?.find((one) => one.fieldId === fieldId);
    const chance = told?.chanceDry ?? null;
    const when = shortDayClockText(last.endUtc, manner);
    return chance === null ? when : `${when}, ${chanceWords(chance)}`;
  };
  const change = (next: CrewDraft) => {
    const mine = next.planId === DEMO_ID ? { ...next, planId: crypto.randomUUID() } : next;
    setDraft(mine);
    // Where the device lets nothing be kept, the crew lasts as long as the page.
    set(KEY, mine).catch(() => {});
  };
  const heldKeys = new Set(held.map(jobKey));
  const isHeld = (job: CrewJobAnswer) => heldKeys.has(jobKey(job));
  const move = (job: CrewJobAnswer, byMs: number) => {
    const next = jobs.map((one) => (jobKey(one) === jobKey(job) ? movedBy(job, byMs) : one));
    setMoved(next);
    setHeld(held.map((one) => next.find((job) => jobKey(job) === jobKey(one)) ?? one));
    crew.check(next);
  };
  const hold = (job: CrewJobAnswer) =>
    setHeld(isHeld(job) ? held.filter((one) => jobKey(one) !== jobKey(job)) : [...held, job]);
  const replan = () => {
    if (request === null || answer === null) return;
    const fixed = held.map(({ fieldId, op, machineId, personId, startUtc }) => ({
      fieldId,
      op,
      machineId,
      personId,
      startUtc,
    }));
    const asked = { ...request, fixed, previous: { jobs: answer.jobs, revision: answer.revision } };
    crew.plan(asked);
  };
  return (
    <div class="crew" ref={ref}>
      <p class="crew-note">
        {own
          ? "Your crew, kept on this device. One weather stands for all places"
          : "Invented demonstration crew: fields, customers, machines and people are made up"}
        {source?.kind === "sample" ? ", and the weather is invented" : ": that of the page"}.
      </p>
      <div aria-live="polite">
        {answer === null ? (
          <p>
            {busy === null
              ? "No plan yet: it needs weather first."
              : "Working out when each field can be cut and taken ..."}
          </p>
        ) : (
          <>
            <p class="crew-answer">{sentence}</p>
            <p>{gapSentence(answer, manner)}</p>
          </>
        )}
        {issues.map(({ path, message }) => (
          <p key={path} role="alert">
            {message}
          </p>
        ))}
      </div>
      {chart === null || answer === null ? null : (
        <CrewChart
          chart={chart}
          manner={manner}
          sentence={sentence}
          names={answer.names}
          chosen={chosen}
          wrong={wrong}
          held={heldKeys}
          home={home}
          slotMs={answer.slotMin * 60_000}
          onChoose={setChosen}
          onMove={move}
        />
      )}
      {answer === null ? null : (
        <>
          <JobPanel
            job={jobs.find((job) => jobKey(job) === chosen) ?? null}
            jobs={jobs}
            onChoose={setChosen}
            plan={answer}
            checked={checked}
            moved={moved !== null}
            held={chosen !== null && heldKeys.has(chosen)}
            busy={busy !== null}
            manner={manner}
            onMove={move}
            onHold={hold}
            onBack={() => setMoved(null)}
            onReplan={replan}
          />
          <div class="crew-buttons">
            {busy === null ? (
              <button type="button" class="aid" onClick={crew.prove}>
                Look for a better plan
              </button>
            ) : (
              <button type="button" class="aid" onClick={crew.cancel}>
                Stop, keep the best so far
              </button>
            )}
            <span aria-live="polite">{busy === null ? "" : progressWords(progress, manner)}</span>
          </div>
          <PlanTold plan={answer} manner={manner} />
          {draft === null ? null : (
            <Fold summary="Change fields, machines and people">
              {() => (
                <>
                  <CrewFields draft={draft} manner={manner} onDraft={change} />
                  <button
                    type="button"
                    class="aid"
                    disabled={busy !== null || draftFaulty(draft)}
                    onClick={() => begin(draft)}
                  >
                    Plan with these
                  </button>{" "}
                  <button
                    type="button"
                    class="aid"
                    onClick={() => {
                      if (series === null) return;
                      const demo = draftOf(demoCrew(series), DEMO_ID);
                      setDraft(demo);
                      del(KEY).catch(() => {});
                      begin(demo);
                    }}
                  >
                    Back to the invented crew
                  </button>
                </>
              )}
            </Fold>
          )}
          <Exports
            planId={draft?.planId ?? DEMO_ID}
            plan={answer}
            jobs={jobs}
            request={request}
            manner={manner}
          />
        </>
      )}
      {answer === null ? null : (
        <p class="crew-note">
          Plan from {dayClockText(answer.nowUtc, manner)}. Pale: weather and ground allow the work. Framed:
          the window that the mowing opens. Blue: rain.
        </p>
      )}
    </div>
  );
}
