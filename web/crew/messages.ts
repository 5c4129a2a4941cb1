import type {
  CrewJobAnswer,
  CrewPlanAnswer,
  CrewPlanRequest,
  CrewProgress,
  FieldReplay,
  FieldsDone,
  PlanFault,
  WordsOfJobs,
} from "../../model/crew/index.ts";
import type { Issue } from "../../model/limits.ts";
import type { Caution } from "./all-faults.ts";

/** What the page asks of the worker of the crew plan, and what it is told. */
export type CrewAsk =
  | { readonly kind: "plan"; readonly id: number; readonly request: CrewPlanRequest }
  /** Searches on from the plan that was told last, with the solver. */
  | { readonly kind: "prove"; readonly id: number; readonly timeLimitS: number }
  | { readonly kind: "cancel" }
  | { readonly kind: "check"; readonly id: number; readonly jobs: readonly CrewJobAnswer[] };

export type CrewTell =
  | { readonly kind: "windows"; readonly id: number; readonly windows: FieldsDone; readonly first: boolean }
  | { readonly kind: "progress"; readonly id: number; readonly progress: CrewProgress }
  | {
      readonly kind: "answer";
      readonly id: number;
      readonly answer: CrewPlanAnswer;
      /** True where a better founded one follows at once. */
      readonly more: boolean;
      /** True where the question was given up, and this is the plan that was in sight before. */
      readonly stopped?: boolean;
      /** What speaks against works that are held at their hour. */
      readonly cautions: readonly Caution[];
    }
  | { readonly kind: "refused"; readonly id: number; readonly issues: readonly Issue[] }
  | ({
      readonly kind: "checked";
      readonly id: number;
      readonly faults: readonly PlanFault[];
      readonly replay: readonly FieldReplay[];
    } & WordsOfJobs);
