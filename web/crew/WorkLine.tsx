import type { CrewJobAnswer, CrewPlanAnswer } from "../../model/crew/index.ts";
import type { Manner } from "../format/manner.ts";
import { OP_LABELS } from "./crew-chart.ts";
import { isBegun, jobKey } from "./job-key.ts";
import { visitSpan } from "./visit-span.ts";

export interface WorkLineProps {
  readonly job: CrewJobAnswer;
  readonly plan: Pick<CrewPlanAnswer, "names" | "nowUtc">;
  /** Works that are held at their hour, by their keys. */
  readonly held: ReadonlySet<string>;
  readonly manner: Manner;
}

/** "Bale Creek field, Thu 2 Jul 2 pm to 4 pm, Baler, Driver one, held". */
export function WorkLine({ job, plan: { names, nowUtc }, held, manner }: WorkLineProps) {
  return (
    <p>
      <b>
        {OP_LABELS[job.op]} {names.fields[job.fieldId]}
      </b>
      , {visitSpan(job, manner)}, {names.machines[job.machineId]}, {names.people[job.personId]}
      {isBegun(job, nowUtc) ? ", begun: it stays" : held.has(jobKey(job)) ? ", held" : ""}
    </p>
  );
}
