import {
  type CrewJobAnswer,
  type CrewPlanAnswer,
  feedWarnings,
  isOfFeed,
  type PreviousPlan,
} from "../../model/crew/index.ts";
import type { Checked } from "./use-crew.ts";

function sameJobs(a: readonly CrewJobAnswer[], b: readonly CrewJobAnswer[]): boolean {
  const text = (jobs: readonly CrewJobAnswer[]) =>
    jobs
      .map((job) => [job.fieldId, job.op, job.machineId, job.personId, job.startUtc, job.endUtc].join("|"))
      .sort()
      .join("\n");
  return text(a) === text(b);
}

/** Rises with each change of what was given out: calendars take in the higher one. */
function revisionOf(
  answer: CrewPlanAnswer,
  jobs: readonly CrewJobAnswer[],
  promised: PreviousPlan | undefined,
): number {
  if (promised === undefined) return answer.revision;
  const given = promised.revision ?? 0;
  return sameJobs(jobs, promised.jobs) ? given : Math.max(answer.revision, given + 1);
}

/** Other works may lie in other waits. */
function withFeed(plan: CrewPlanAnswer, feed: Checked["feed"]): CrewPlanAnswer {
  const cautions = [...plan.cautions.filter((caution) => !isOfFeed(caution)), ...feed];
  const before = feedWarnings(plan);
  const warnings = plan.warnings.filter((text) => !before.includes(text));
  return { ...plan, cautions, warnings: [...warnings, ...feedWarnings({ cautions, names: plan.names })] };
}

/**
 * The plan as it stands on the page: what is exported, printed and kept is what is seen.
 *
 * @param moved the works as a person moved them; null = as planned
 * @param promised what was given out last
 */
export function shownPlan(
  answer: CrewPlanAnswer,
  moved: readonly CrewJobAnswer[] | null,
  checked: Checked | null,
  promised: PreviousPlan | undefined,
): CrewPlanAnswer {
  const jobs = moved ?? answer.jobs;
  const revision = revisionOf(answer, jobs, promised);
  if (moved === null) return { ...answer, revision };
  const { replay, changes, cancelled, messages, windows } = checked ?? answer;
  // The whole plan's chance is not told anew, nor that nothing would help: that was found before it was moved.
  const { noHelp: _, ...rest } = answer;
  const shown = { ...rest, jobs, revision, replay, worth: null, changes, cancelled, messages, windows };
  return checked === null ? shown : withFeed(shown, checked.feed);
}
