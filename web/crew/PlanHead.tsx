import type { CrewPlanAnswer } from "../../model/crew/index.ts";
import type { Issue } from "../../model/limits.ts";
import { fullText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import type { Caution } from "./all-faults.ts";
import { Cautions } from "./Cautions.tsx";
import type { CrewDraft, EarlyMowing } from "./crew-draft.ts";
import { chanceSentence, gapSentence } from "./crew-sentences.ts";
import { farmWords } from "./farm-words.ts";

interface PlanHeadProps {
  readonly plan: CrewPlanAnswer | null;
  readonly sentence: string;
  readonly busy: boolean;
  /** Works were moved or given to others by hand. */
  readonly moved: boolean;
  /** Mowings before the weather begins. */
  readonly early: readonly EarlyMowing[];
  readonly draft: CrewDraft | null;
  readonly faults: readonly Caution[];
  /** Why the question was refused. */
  readonly issues: readonly Issue[];
  readonly manner: Manner;
}

/** The answer in sentences, and what is to be minded in it: what changes here is read out. */
export function PlanHead(props: PlanHeadProps) {
  const { plan, sentence, busy, moved, early, draft, faults, issues, manner } = props;
  return (
    <div aria-live="polite">
      {plan === null ? (
        <p>{busy ? "The plan is being made." : "No plan yet: it needs weather first."}</p>
      ) : (
        <>
          <p class="crew-answer">{sentence}</p>
          <p>
            {moved
              ? "Works were changed by hand: how much better a plan could be is not known."
              : gapSentence(plan, manner)}{" "}
            {chanceSentence(plan)}
          </p>
          {early.map(({ fieldId, mownUtc }) => (
            <p key={fieldId} class="crew-warned">
              {draft?.fields.find(({ id }) => id === fieldId)?.name ?? fieldId} was mown{" "}
              {fullText(mownUtc, manner)}, before this weather begins: what must follow cannot be planned.
              Take weather that reaches back to the mowing.
            </p>
          ))}
          <Cautions faults={faults} moved={moved} manner={manner} />
        </>
      )}
      {issues.map(({ path, message }) => (
        <p key={path} role="alert">
          {farmWords(message, manner)}
        </p>
      ))}
    </div>
  );
}
