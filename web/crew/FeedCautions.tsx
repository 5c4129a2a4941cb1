import type { CrewOp } from "../../model/crew/index.ts";
import { Box } from "../cautions/Cautions.tsx";
import { WHO_DECIDES } from "../cautions/cautions.ts";
import type { Manner } from "../format/manner.ts";
import { farmWords } from "./farm-words.ts";
import { type CautionedField, type CautionedPlan, feedBoxes, hazardLines } from "./feed-orders.ts";

interface FeedProps {
  readonly plan: CautionedPlan;
  readonly fields: readonly CautionedField[];
  /** The work that is to be done; absent = all of them. */
  readonly op?: CrewOp;
  readonly manner: Manner;
}

/** What is to be known before the crop is cut and fed: short orders that cannot be closed, their reasons one tap below. */
export function FeedCautions({ plan, fields, op, manner }: FeedProps) {
  const isCut = op === undefined || op === "mow";
  const hazards = isCut ? hazardLines(plan, fields) : [];
  const boxes = [
    ...(isCut ? feedBoxes(plan, fields, "before-cutting") : []),
    ...(op === "mow" ? [] : feedBoxes(plan, fields, "feed")),
  ];
  if (boxes.length + hazards.length === 0) return null;
  return (
    <aside
      class={op === undefined ? "cautions crew-crops" : "cautions"}
      aria-label={op === undefined ? "Cautions of the crops" : "Cautions of this work"}
    >
      {hazards.length === 0 ? null : (
        <ul class="crew-warned crew-waits">
          {hazards.map((text) => (
            <li key={text}>{farmWords(text, manner)}</li>
          ))}
        </ul>
      )}
      {boxes.map((box) => (
        <Box key={box.title} {...box} />
      ))}
      <p class="who">{WHO_DECIDES}</p>
    </aside>
  );
}
