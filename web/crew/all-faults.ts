import {
  type BuiltCrew,
  type CrewJob,
  type CrewOp,
  type CrewPlanAnswer,
  type CrewRules,
  isOfFeed,
  type PlanFault,
  planFaults,
  rulesOf,
  toCrewJob,
} from "../../model/crew/index.ts";

/** What is said of held work: where it stands alone nothing is missing, and who does it was asked for. */
const HELD_CODES: readonly PlanFault["code"][] = [
  "window",
  "weather",
  "lag",
  "hours",
  "order",
  "duration",
  "travel",
];

/** Only work that has begun is past asking; work held for a later hour is looked at like the rest. */
function beforeNow(rules: CrewRules, jobs: readonly CrewJob[], nowUtcMs: number): CrewRules {
  const begun = new Set(
    jobs.filter(({ startUtcMs }) => startUtcMs < nowUtcMs).map(({ fieldId, op }) => `${fieldId}/${op}`),
  );
  return { ...rules, isFixed: (fieldId, op) => begun.has(`${fieldId}/${op}`) && rules.isFixed(fieldId, op) };
}

const keyOf = ({ fieldId, op, code, text }: PlanFault) => `${fieldId}/${op}/${code}/${text}`;

/**
 * What speaks against a plan as it stands: all that makes it impossible, and of works that somebody holds at their hour
 * what the plan itself would not do there.
 */
export function allFaults(
  built: Pick<BuiltCrew, "nowUtcMs"> & Parameters<typeof rulesOf>[0],
  jobs: readonly CrewJob[],
): readonly PlanFault[] {
  const rules = rulesOf(built, "all");
  return faultsUnder(rules, jobs, built.nowUtcMs);
}

/** One thing to be minded in held work, whoever found it. */
export type Caution = Pick<PlanFault, "fieldId" | "op" | "text"> & { readonly code: string };

/** What the answer says of held work, and what speaks against it besides; what it says of feed stands by itself. */
export function answerCautions(
  built: Parameters<typeof allFaults>[0],
  { cautions = [], jobs }: Pick<CrewPlanAnswer, "cautions" | "jobs">,
): readonly Caution[] {
  const known = new Set(cautions.map(({ fieldId, op, code }) => `${fieldId}/${op}/${code}`));
  const more = allFaults(built, jobs.map(toCrewJob)).filter(
    ({ fieldId, op, code }) => !known.has(`${fieldId}/${op}/${code}`),
  );
  return [...cautions.filter((caution) => !isOfFeed(caution)), ...more];
}

/** What of a held work is a doubt, and no contradiction. */
const DOUBTS: readonly Caution["code"][] = ["window", "weather", "lag", "hours"];

/** Works that cannot be carried out where somebody moved them; each once. */
export function impossibleWorks(faults: readonly Caution[], held: ReadonlySet<string>): readonly MovedWork[] {
  const keys = faults.flatMap(({ fieldId, op, code }) =>
    op === null || (held.has(`${fieldId}/${op}`) && DOUBTS.includes(code))
      ? []
      : [{ fieldId, op: op as CrewOp }],
  );
  const isSame = (a: MovedWork, b: MovedWork) => a.fieldId === b.fieldId && a.op === b.op;
  return keys.filter((one, i) => keys.findIndex((other) => isSame(one, other)) === i);
}

export interface MovedWork {
  readonly fieldId: string;
  readonly op: CrewOp;
}

/** The same under given rules. */
function faultsUnder(rules: CrewRules, jobs: readonly CrewJob[], nowUtcMs: number): readonly PlanFault[] {
  const plain = planFaults(rules, jobs);
  const known = new Set(plain.map(keyOf));
  const held = planFaults(beforeNow(rules, jobs, nowUtcMs), jobs).filter(
    (fault) =>
      !known.has(keyOf(fault)) &&
      fault.op !== null &&
      rules.isFixed(fault.fieldId, fault.op) &&
      HELD_CODES.includes(fault.code),
  );
  return [...plain, ...held];
}
