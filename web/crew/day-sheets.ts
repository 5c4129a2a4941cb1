import type { CrewJobAnswer, CrewPlanAnswer } from "../../model/crew/index.ts";
import { clockText, dayDateText, utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { OP_LABELS } from "./crew-chart.ts";

export interface SheetLine {
  readonly key: string;
  readonly day: string;
  readonly from: string;
  readonly to: string;
  readonly work: string;
  readonly field: string;
  readonly person: string;
}

export interface DaySheet {
  readonly machine: string;
  readonly lines: readonly SheetLine[];
}

/** For each machine that has work: what it does, hour after hour. */
export function daySheets(
  plan: CrewPlanAnswer,
  jobs: readonly CrewJobAnswer[],
  pageManner: Manner,
): DaySheet[] {
  const manner = { ...pageManner, zone: plan.timeZone };
  return Object.entries(plan.names.machines).flatMap(([id, machine]) => {
    const own = jobs
      .filter(({ machineId }) => machineId === id)
      .sort((a, b) => utcMs(a.startUtc) - utcMs(b.startUtc));
    if (own.length === 0) return [];
    const lines = own.map((job) => ({
      key: `${job.fieldId}/${job.op}`,
      day: dayDateText(job.startUtc, manner),
      from: clockText(job.startUtc, manner),
      to: clockText(job.endUtc, manner),
      work: OP_LABELS[job.op],
      field: plan.names.fields[job.fieldId] ?? job.fieldId,
      person: plan.names.people[job.personId] ?? job.personId,
    }));
    return [{ machine, lines }];
  });
}
