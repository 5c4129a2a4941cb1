import {
  type CrewPlanAnswer,
  type CrewPlanRequest,
  type CustomerText,
  type TextField,
  type TextSaying,
  customerTexts as textsOf,
  changeTexts as textsOfChanges,
} from "../../model/crew/index.ts";
import { type Manner, quantityText } from "../format/manner.ts";
import { farmWords, zoneWords } from "./farm-words.ts";
import type { GoneNames } from "./gone.ts";

/** How the page has the model say its texts: on the reader's clock and in the reader's units, in the farm's time. */
function sayingOf(manner: Manner): TextSaying {
  return {
    clock: { timeZone: manner.zone, hour12: manner.hour12, thisYear: manner.thisYear },
    quoted: (reason) => farmWords(reason, manner),
    areaWords: (areaHa) => quantityText(areaHa, "area", manner),
    timesAre: zoneWords(manner.zone),
  };
}

/** What changed of each field, moves of one reason in one sentence. */
export function changeTexts(
  changes: Parameters<typeof textsOfChanges>[0],
  names: Readonly<Record<string, string>>,
  manner: Manner,
): readonly string[] {
  return textsOfChanges(changes, names, sayingOf(manner));
}

/** A short text to each customer, to copy; who waits for a field that was taken out of the list gets one too. */
export function customerTexts(
  plan: Pick<CrewPlanAnswer, "jobs" | "left" | "changes" | "cautions" | "names" | "nowUtc" | "timeZone">,
  fields: CrewPlanRequest["fields"],
  gone: GoneNames | undefined,
  reader: Manner,
): readonly CustomerText[] {
  const isListed = (fieldId: string) => fields.some(({ id }) => id === fieldId);
  const out = [...new Set(plan.changes.map(({ fieldId }) => fieldId))].flatMap((id): readonly TextField[] =>
    isListed(id)
      ? []
      : [
          {
            id,
            name: gone?.fields[id] ?? plan.names.gone?.[id],
            customer: gone?.customers?.[id] ?? plan.names.customers?.[id],
          },
        ],
  );
  return textsOf(plan, [...fields, ...out], sayingOf({ ...reader, zone: plan.timeZone }));
}
