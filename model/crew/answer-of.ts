import { utcLabel } from "../weather/labels.ts";
import type { CrewCaution, CrewPlanAnswer, CrewWindowAnswer, FieldLeft } from "./answer.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { cautionsOf } from "./cautions.ts";
import { cancelledVisits, changesOf } from "./changes.ts";
import { comparedPlans, fatesByField, worthOf } from "./compare-plans.ts";
import { customerTexts } from "./customer-texts.ts";
import { feedCautions, feedWarnings } from "./feed-cautions.ts";
import { courseOf, type GridField, type GridJob, type GridTask, momentsOf, slotUtcMs } from "./grid.ts";
import { type HelpFound, mostHelpful, noHelpWords } from "./help.ts";
import { isGather } from "./keys.ts";
import { untriedWords } from "./left-help.ts";
import { planIdOf } from "./plan-id.ts";
import { OF_WINDOWS, promisedWords, rereadWords, toldWords, usualWords, widenedWords } from "./plan-words.ts";
import { toldReplay } from "./replay.ts";
import type { CrewJobAnswer } from "./request.ts";
import { crewJob, gridJobs, jobAnswer, rulesOf, stretches, toCrewJob } from "./rules-of.ts";
import type { GridPlan } from "./solve-grid.ts";
import { planFaults } from "./validity.ts";
import { jobsOfField, keptShare, leftValue } from "./value.ts";
import { servedIfThere } from "./who-is-away.ts";
import { mownUtcMs, whyLeft } from "./why-left.ts";
import { hasChance } from "./windows/site-weather.ts";
import { spokenClock } from "./words.ts";

/** How far the telling goes. */
interface Told {
  readonly stop?: (() => boolean) | undefined;
  /** True once the change that would help most is sought no longer. */
  readonly late?: (() => boolean) | undefined;
  /** True = without the change that would help most. */
  readonly brief?: boolean | undefined;
}

/** What is told of a plan that was found: its value and proof, its replay, what is left, what moved, whom to tell what. */

function namesOf(list: readonly { readonly id: string; readonly name?: string | null | undefined }[]) {
  return Object.fromEntries(list.map(({ id, name }) => [id, name ?? id]));
}

function allNames({ request }: BuiltCrew): CrewPlanAnswer["names"] {
  const { fields, previous } = request;
  const isGone = (id: string) => !fields.some((field) => field.id === id);
  const told = [...(previous?.jobs ?? []), ...(previous?.cancelled ?? [])];
  const goneIds = [...new Set(told.map(({ fieldId }) => fieldId).filter(isGone))];
  const kept = (of: Readonly<Record<string, string>> | undefined) =>
    Object.fromEntries(goneIds.flatMap((id) => (of?.[id] === undefined ? [] : [[id, of[id]]])));
  const gone = kept({ ...previous?.names?.gone, ...previous?.names?.fields });
  const customers = {
    ...kept(previous?.names?.customers),
    ...Object.fromEntries(fields.flatMap(({ id, customer }) => (customer == null ? [] : [[id, customer]]))),
  };
  return {
    fields: namesOf(fields),
    machines: namesOf(request.machines),
    people: namesOf(request.people),
    customers,
    ...(Object.keys(gone).length > 0 ? { gone } : {}),
  };
}

/** The texts to the customers: of the fields of the question, and of those of the plan before that left it. */
function messagesOf(
  built: BuiltCrew,
  plan: Pick<CrewPlanAnswer, "jobs" | "left" | "changes" | "cautions">,
): CrewPlanAnswer["messages"] {
  const { fields } = built.request;
  const names = allNames(built);
  const gone = [...new Set(plan.changes.map(({ fieldId }) => fieldId))]
    .filter((id) => !fields.some((field) => field.id === id))
    .map((id) => ({ id, customer: names.customers?.[id] }));
  return customerTexts({ ...plan, names, nowUtc: utcLabel(built.nowUtcMs) }, [...fields, ...gone], {
    clock: spokenClock(built),
  });
}

export interface WordsOfJobs extends Pick<CrewPlanAnswer, "changes" | "cancelled" | "messages" | "windows"> {
  /** Those of the answer's cautions that are of the crop as feed. */
  readonly feed: readonly CrewCaution[];
}

/** What moved against the plan before, the text to each customer and the windows, of a plan that a person changed. */
export function wordsOfJobs(
  built: BuiltCrew,
  jobs: readonly CrewJobAnswer[],
  left: CrewPlanAnswer["left"],
): WordsOfJobs {
  const inGrid = gridJobs(built, jobs);
  const changes = changesOf(built, inGrid, left);
  const feed = feedCautions(built, jobs.map(toCrewJob));
  return {
    changes,
    cancelled: cancelledVisits(built, jobs, changes),
    messages: messagesOf(built, { jobs, left, changes, cautions: feed }),
    windows: windowAnswers(built, inGrid),
    feed,
  };
}

/** Said where nothing is in need and nothing was found that brings more. */
const ALL_IN =
  "Every field finds its place and none is told to be at risk: an hour more each evening, a machine or a person more was not found to bring anything worth naming.";

const NOT_SOUGHT: HelpFound = { change: null, untried: { routes: [], works: [] } };

export function answerOf(built: BuiltCrew, plan: GridPlan, tools: Told): CrewPlanAnswer {
  const { grid, request } = built;
  const stop = tools.stop ?? (() => false);
  const isOver = () => stop() || tools.late?.() === true;
  const crewJobs = plan.jobs.map((job) => crewJob(built, job));
  const faults = planFaults(rulesOf(built), crewJobs);
  // Each answer is proved by a check that knows nothing of how it was found.
  if (faults.length > 0) throw new Error(`the plan cannot be carried out: ${faults[0]?.text}`);
  const ifThere = servedIfThere(built, plan.jobs, stop);
  const left = grid.fields.flatMap((field, f): FieldLeft[] => {
    if (jobsOfField(field, f, plan.jobs) !== null) return [];
    const mownMs = mownUtcMs(built, f);
    const mownUtc = mownMs === null ? null : utcLabel(mownMs);
    return [{ fieldId: field.id, ...whyLeft(built, plan.jobs, f, ifThere), mownUtc }];
  });
  const isLeft = (fieldId: string) => left.some((one) => one.fieldId === fieldId);
  const fates = fatesByField(built, crewJobs);
  const replay = request.fields.flatMap((field, f) => {
    const own = fates[f];
    if (own == null || isLeft(field.id)) return [];
    return [toldReplay(field.id, own, hasChance(built.sites[field.siteId]))];
  });
  const members = Math.max(
    0,
    ...Object.values(built.sites).map(({ kind, members }) => (kind === "known" ? 0 : members.length)),
  );
  const { change: help, untried } = tools.brief
    ? NOT_SOUGHT
    : mostHelpful(built, plan.jobs, crewJobs, plan, replay, isOver);
  const isInNeed = left.length > 0 || replay.some(({ atRisk }) => atRisk);
  const isSought = help === null && !tools.brief && !isOver();
  const noHelp = !isSought
    ? undefined
    : isInNeed
      ? noHelpWords(built, replay, left, untried, crewJobs)
      : ALL_IN;
  const isCut = isInNeed && !tools.brief && isOver();
  // Where nothing was found, that says it too.
  const notTried = noHelp === undefined ? untriedWords(built, untried) : null;
  const jobs = plan.jobs.map((job) => jobAnswer(built, job));
  const windowsReread = grid.fields
    .map(({ id }) => id)
    .filter((id) => [...built.reread, ...built.told, ...built.promised].includes(id));
  const changes = changesOf(built, plan.jobs, left);
  const ofHeld = cautionsOf(
    built,
    crewJobs,
    replay,
    left.map(({ fieldId }) => fieldId),
  );
  const ofFeed = feedCautions(built, crewJobs);
  const names = allNames(built);
  return {
    jobs,
    left,
    value: plan.value,
    valueParts: valueParts(built, plan.jobs),
    bound: plan.bound,
    boundKind: plan.boundKind,
    boundWeak: plan.boundKind === "pool-load" && plan.gap > 0,
    gap: plan.gap,
    ...(windowsReread.length > 0 ? { windowsReread } : {}),
    ...cartsOf(built),
    method: plan.method,
    replay,
    worth: members > 0 && replay.length > 0 ? worthOf(built, crewJobs, isLeft) : null,
    help,
    ...(noHelp === undefined ? {} : { noHelp }),
    compared: request.compare === true ? comparedPlans(built, crewJobs, plan.value, stop) : null,
    changes,
    cancelled: cancelledVisits(built, jobs, changes),
    messages: messagesOf(built, { jobs, left, changes, cautions: ofFeed }),
    windows: windowAnswers(built, plan.jobs),
    names,
    timeZone: built.timeZone,
    slotMin: grid.slotMs / 60_000,
    nowUtc: utcLabel(built.nowUtcMs),
    untilUtc: utcLabel(slotUtcMs(grid, grid.count)),
    revision: request.previous == null ? 0 : (request.previous.revision ?? 0) + 1,
    planId: planIdOf(request, built.nowUtcMs),
    counts: { members, courses: built.windows.reduce((sum, { courses }) => sum + courses, 0) },
    assumptions: [
      ...built.assumptions,
      ...rereadWords(request, built.reread),
      ...toldWords(
        request,
        built.told.filter((id) => !built.widened.includes(id)),
      ),
      ...widenedWords(request, built.widened),
      ...promisedWords(request, built.promised),
      ...usualWords(
        request,
        left.map(({ fieldId }) => fieldId).filter((id) => !built.told.includes(id)),
      ),
      ...(windowsReread.length > 0 ? [OF_WINDOWS] : []),
      ...(notTried === null ? [] : [notTried]),
      ...(isCut ? ["What would help most was not sought to the end: the time was over before."] : []),
    ],
    cautions: [...ofHeld, ...ofFeed],
    warnings: [
      ...built.warnings,
      ...ofHeld.map(({ text }) => text),
      ...feedWarnings({ cautions: ofFeed, names }),
    ],
  };
}

function cartsOf({ grid }: BuiltCrew): Pick<CrewPlanAnswer, "carts"> {
  const idOf = (k: number) => grid.machines[k]?.id ?? "";
  const pairs = grid.machines.flatMap(({ id, along }) =>
    along === undefined ? [] : [[id, along.map(idOf)]],
  );
  return pairs.length === 0 ? {} : { carts: Object.fromEntries(pairs) };
}

function valueParts(built: BuiltCrew, jobs: readonly GridJob[]): CrewPlanAnswer["valueParts"] {
  let kept = 0;
  let lateness = 0;
  let moved = 0;
  built.grid.fields.forEach((field, f) => {
    const own = jobsOfField(field, f, jobs);
    const last = own?.at(-1);
    if (own === null || last === undefined) {
      moved -= leftValue(field);
      return;
    }
    kept += field.worth * keptShare(field, own);
    lateness += field.lateCost[last.end] as number;
    moved +=
      field.moveCost *
      field.tasks.filter(
        ({ before, fixed }, i) => before !== null && fixed === null && own[i]?.start !== before,
      ).length;
  });
  return { kept, lateness, moved };
}

/** The windows of the works still to come: what is done or under way has its hours, and needs none. */
function windowAnswers(built: BuiltCrew, jobs: readonly GridJob[]): CrewWindowAnswer[] {
  const { grid, nowUtcMs } = built;
  const label = (slot: number) => utcLabel(slotUtcMs(grid, slot));
  return grid.fields.flatMap((field, f) => {
    const own = field.tasks.map((_, task) => jobs.find((job) => job.field === f && job.task === task));
    const course = courseOf(field, own);
    return field.tasks.flatMap((task, i): CrewWindowAnswer[] => {
      const { op, ready, until, openUntil, fixed } = task;
      if (fixed !== null && momentsOf(grid, { field: f, task: i, ...fixed }).fromUtcMs < nowUtcMs) return [];
      const opens = isUnknown(field, task) ? -1 : (ready?.[course] ?? -1);
      return [
        {
          fieldId: field.id,
          op,
          readyUtc: opens < 0 ? null : label(opens),
          untilUtc: opens < 0 ? null : label(until?.[course] ?? opens),
          openUtc: stretches(built, openUntil).map(({ fromUtcMs, toUtcMs }) => ({
            fromUtc: utcLabel(fromUtcMs),
            toUtc: utcLabel(toUtcMs),
          })),
        },
      ];
    });
  });
}

/** A gathering that is held before its raking is planned: its window was read from the swath, and it takes a windrow. */
function isUnknown({ tasks }: GridField, { op, fixed }: GridTask): boolean {
  return fixed !== null && isGather(op) && tasks.some((one) => one.op === "rake" && one.fixed === null);
}
