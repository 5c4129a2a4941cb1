import { useEffect, useMemo, useState } from "preact/hooks";
import type { CrewJobAnswer } from "../../model/crew/index.ts";
import { inTen } from "../../model/odds/in-ten.ts";
import { localDayKey } from "../../model/weather/clock.ts";
import type { FoldsProps } from "../app/Folds.tsx";
import { Fold } from "../fold/Fold.tsx";
import { shortDayClockText, utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { useWidth } from "../format/use-width.ts";
import { impossibleWorks } from "./all-faults.ts";
import { CrewPicture } from "./CrewPicture.tsx";
import { toCrewChart } from "./crew-chart.ts";
import { type CrewDraft, type EarlyMowing, earlyIn, requestOf } from "./crew-draft.ts";
import { crewNote } from "./crew-note.ts";
import { rainWords } from "./crew-rain.ts";
import { crewSentence } from "./crew-sentences.ts";
import { customerTexts } from "./customer-texts.ts";
import { withInventedMembers } from "./demo-crew.ts";
import { EditCrew } from "./EditCrew.tsx";
import { Exports } from "./Exports.tsx";
import { FeedCautions } from "./FeedCautions.tsx";
import { zoneWords } from "./farm-words.ts";
import { goneOf, withGoneFields, withKnownNames } from "./gone.ts";
import {
  asIn,
  doneBy,
  type Hands,
  movedBy,
  movedLoose,
  stillThere,
  withHeld,
  without,
} from "./held-works.ts";
import { JobPanel } from "./JobPanel.tsx";
import { isBegun, jobKey } from "./job-key.ts";
import { leftState } from "./left-words.ts";
import { PlanHead } from "./PlanHead.tsx";
import { PlanInBook } from "./PlanInBook.tsx";
import { PlanTold } from "./PlanTold.tsx";
import { Search } from "./Search.tsx";
import { shownPlan } from "./shown-plan.ts";
import { useCrew } from "./use-crew.ts";
import { useDraft } from "./use-draft.ts";
import { visitTime } from "./visit-span.ts";
import "./crew.css";

export type CrewPlanProps = Pick<FoldsProps, "picture" | "manner">;

/** The names take so much of the width, px. */
const NAMES_PX = { wide: 170, narrow: 104 };
const NARROW_PX = 620;
const LEAST_CHART_PX = 160;

/** Under the name of a field that is not brought in. */
const HOME_WORDS = { stands: "left standing", lies: "lies mown", "would-lie": "do not mow" } as const;

/** The contractor's plan: many fields, few machines. Opens on an invented crew in the weather of the page. */
export function CrewPlan({ picture, manner: pageManner }: CrewPlanProps) {
  const crew = useCrew();
  const { ref, widthPx } = useWidth<HTMLDivElement>();
  const [moved, setMoved] = useState<readonly CrewJobAnswer[] | null>(null);
  const [chosen, setChosen] = useState<string | null>(null);
  const [held, setHeld] = useState<readonly CrewJobAnswer[]>([]);
  const [early, setEarly] = useState<readonly EarlyMowing[]>([]);
  const source = picture?.source ?? null;
  const nowUtc = picture?.request.nowUtc ?? null;
  const series = useMemo(() => {
    if (source === null) return null;
    return source.kind === "sample" ? withInventedMembers(source.series) : source.series;
  }, [source]);
  const begin = (next: CrewDraft, holding: readonly CrewJobAnswer[] = []) => {
    if (series === null) return;
    const asked = requestOf(next, series, nowUtc);
    setEarly(earlyIn(next, asked));
    setMoved(null);
    setHeld(holding);
    crew.plan(withHeld(asked, holding));
  };
  const { draft, change, note, forget } = useDraft(series, begin);
  // Other weather of the page is another question; what was given out stays what the plan holds to.
  useEffect(() => {
    if (draft !== null) begin(draft);
  }, [series]);

  const { answer, request, busy, issues, checked } = crew;
  const isEarly = ({ fieldId }: { readonly fieldId: string }) => early.some((one) => one.fieldId === fieldId);
  const given = draft?.promised;
  const promised = useMemo(
    () => given && { ...given, jobs: given.jobs.filter((job) => !isEarly(job)) },
    [given, early],
  );
  const gone = draft?.gone;
  const plan = useMemo(() => {
    if (answer === null) return null;
    const shown = shownPlan(answer, moved, checked, promised);
    return request === null ? shown : withKnownNames(shown, { ...request, gone });
  }, [answer, moved, checked, promised, request, gone]);
  const isMoved = moved !== null;
  // Works that were moved meanwhile are held against the better founded plan too.
  useEffect(() => {
    if (moved !== null) crew.check(moved);
  }, [answer]);
  const prove = (timeLimitS: number) => {
    setMoved(null);
    crew.prove(timeLimitS);
  };
  const jobs = plan?.jobs ?? [];
  const zone = plan?.timeZone ?? series?.site.timeZone ?? pageManner.zone;
  const nearDay = plan === null ? pageManner.nearDay : localDayKey(utcMs(plan.nowUtc), zone);
  const manner: Manner = { ...pageManner, zone, nearDay };
  const chart = useMemo(() => {
    if (plan === null || series === null || widthPx === 0) return null;
    const weather = Object.values(request?.sites ?? {})[0]?.series ?? series;
    const namesPx = widthPx > NARROW_PX ? NAMES_PX.wide : NAMES_PX.narrow;
    const machines = request?.machines ?? [];
    return toCrewChart(plan, plan.jobs, weather, Math.max(LEAST_CHART_PX, widthPx - namesPx), {
      away: Object.fromEntries(machines.map(({ id, offUtc }) => [id, offUtc])),
      gone: new Set(goneOf(plan.names.machines, machines)),
      hour12: pageManner.hour12,
      people: request?.people ?? [],
    });
  }, [plan, request, series, widthPx, pageManner.hour12]);
  const faults = isMoved ? (checked?.faults ?? []) : crew.cautions;
  // By hand, or by the file that the crew came with.
  const fixed = draft?.fixed ?? [];
  const heldKeys = new Set([...held, ...fixed].map(jobKey));
  const impossible = isMoved ? impossibleWorks(faults, heldKeys) : [];
  const sentence = plan === null ? "" : crewSentence(plan, manner, impossible);
  const texts = useMemo(
    () => (plan === null || request === null ? [] : customerTexts(plan, request.fields, gone, manner)),
    [plan, request, gone, manner.zone, manner.hour12, manner.units, manner.locale],
  );
  const wrong = new Set(faults.map(({ fieldId, op }) => `${fieldId}/${op}`));
  const chosenJob = jobs.find((job) => jobKey(job) === chosen) ?? null;
  const rain = request === null || plan === null ? null : rainWords(request, chosenJob, plan.nowUtc);
  const home = (fieldId: string) => {
    const left = plan === null ? null : leftState(plan, fieldId);
    const last = jobs.filter((job) => job.fieldId === fieldId).at(-1);
    if (left !== null || last === undefined) return HOME_WORDS[left ?? "stands"];
    const chance = plan?.replay.find((one) => one.fieldId === fieldId)?.chanceDry ?? null;
    const when = shortDayClockText(last.endUtc, manner);
    return chance === null ? when : `${when}, ${inTen(chance)}`;
  };
  const put = (job: CrewJobAnswer, as: CrewJobAnswer) => {
    if (plan === null || isBegun(job, plan.nowUtc)) return;
    const next = jobs.map((one) => (jobKey(one) === jobKey(job) ? as : one));
    setMoved(next);
    // What is held is held where and with whom it was put, what a file holds too.
    setHeld(asIn(next, heldKeys.has(jobKey(job)) ? [...without(held, job), job] : held));
    crew.check(next);
  };
  const move = (job: CrewJobAnswer, byMs: number) => put(job, movedBy(job, byMs));
  const hand = (job: CrewJobAnswer, hands: Hands) => {
    const given = plan === null || request === null ? null : doneBy(job, hands, request, plan);
    if (given !== null) put(job, given);
  };
  const putBack = () => {
    setMoved(null);
    setHeld(asIn(answer?.jobs ?? [], held));
  };
  const hold = (job: CrewJobAnswer) => {
    if (!heldKeys.has(jobKey(job))) return setHeld([...held, job]);
    if (fixed.length > 0) note({ fixed: without(fixed, job) });
    setHeld(without(held, job));
  };
  const replan = () => {
    if (draft === null || plan === null || answer === null) return;
    // What was given out is what a plan is held against; before that, the last plan.
    const before = given?.jobs ?? answer.jobs;
    const { cancelled } = given ?? { cancelled: undefined };
    begin({ ...draft, promised: { jobs: before, revision: plan.revision, cancelled } }, held);
  };
  // What is held stays held where its field and machine are still there; another plan, from a file, holds its own.
  const planChanged = (next: CrewDraft) =>
    begin(next, next.planId === draft?.planId ? stillThere(held, next) : []);
  const give = (part: Partial<CrewDraft> = {}) => {
    if (plan === null) return;
    // A mowing that this weather does not reach back to is not forgotten with it.
    const jobs = [...plan.jobs, ...(given?.jobs ?? []).filter(isEarly)];
    note({ ...part, promised: { jobs, revision: plan.revision, cancelled: plan.cancelled } });
  };
  return (
    <div class="crew" ref={ref}>
      <p class="crew-note">{crewNote(draft, source?.kind === "sample", manner)}</p>
      <PlanHead
        plan={plan}
        sentence={sentence}
        busy={busy !== null}
        moved={isMoved}
        early={early}
        draft={draft}
        faults={faults}
        issues={issues}
        manner={manner}
      />
      <Search
        crew={{ ...crew, prove }}
        manner={manner}
        timeLimitS={draft?.timeLimitS}
        onTimeLimit={(timeLimitS) => note({ timeLimitS })}
      />
      {chart === null || plan === null ? null : (
        <CrewPicture
          plan={plan}
          request={request}
          rain={rain}
          chart={chart}
          manner={manner}
          sentence={sentence}
          chosen={chosen}
          wrong={wrong}
          held={heldKeys}
          home={home}
          onChoose={setChosen}
          onMove={move}
          onHand={hand}
        />
      )}
      {plan === null ? null : <FeedCautions plan={plan} fields={request?.fields ?? []} manner={manner} />}
      {plan === null ? null : (
        <>
          <JobPanel
            job={chosenJob}
            rain={rain}
            jobs={jobs}
            onChoose={setChosen}
            plan={plan}
            crew={request}
            faults={faults}
            checked={isMoved && checked !== null}
            moved={isMoved}
            held={heldKeys}
            loose={
              moved === null ? 0 : movedLoose(answer?.jobs ?? [], moved, (job) => heldKeys.has(jobKey(job)))
            }
            busy={busy !== null}
            fields={request?.fields ?? []}
            manner={manner}
            onMove={move}
            onHand={hand}
            onHold={hold}
            onBack={putBack}
            onReplan={replan}
          />
          <PlanTold
            plan={plan}
            faults={faults}
            texts={texts}
            goneFields={gone?.fields ?? {}}
            manner={manner}
            onGiven={give}
          />
        </>
      )}
      {draft === null || series === null ? null : (
        <Fold summary="Change fields, machines and people">
          {() => (
            <EditCrew
              draft={draft}
              series={series}
              manner={manner}
              nowUtc={plan?.nowUtc ?? series.hours.startUtc[0] ?? ""}
              busy={busy !== null}
              onDraft={change}
              onPlan={planChanged}
              onDemo={() => {
                const demo = forget();
                if (demo !== null) begin(demo);
              }}
            />
          )}
        </Fold>
      )}
      {plan === null || draft === null ? null : (
        <>
          <Exports
            planId={draft.planId}
            invented={draft.invented === true}
            plan={withGoneFields(plan, gone)}
            moved={isMoved}
            faults={faults}
            impossible={impossible}
            request={request}
            manner={manner}
            onGiven={give}
          />
          <PlanInBook
            planId={draft.planId}
            inBook={draft.inBook === true}
            plan={withGoneFields(plan, gone)}
            final={busy === null && !isMoved}
            request={request}
            onKept={() => give({ inBook: true })}
          />
          <p class="crew-note">
            Plan from {visitTime(plan.nowUtc, manner)} ({zoneWords(manner.zone)}).
          </p>
        </>
      )}
    </div>
  );
}
