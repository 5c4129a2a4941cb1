import { useState } from "preact/hooks";
import type { CrewPlanAnswer, CrewPlanRequest } from "../../model/crew/index.ts";
import type { Manner } from "../format/manner.ts";
import type { Caution, MovedWork } from "./all-faults.ts";
import { printSheets } from "./DaySheets.tsx";
import { daySheets, sheetHead } from "./day-sheets.ts";
import { saveFile, saveWritten } from "./export-plan.ts";

interface ExportsProps {
  readonly planId: string;
  readonly invented: boolean;
  /** The plan as seen, works that were moved by hand among it. */
  readonly plan: CrewPlanAnswer;
  readonly moved: boolean;
  /** What speaks against works where they were moved to, or are held. */
  readonly faults: readonly Caution[];
  /** Of these the works that cannot be carried out. */
  readonly impossible: readonly MovedWork[];
  readonly request: CrewPlanRequest | null;
  readonly manner: Manner;
  /** The plan has been given out. */
  readonly onGiven: () => void;
}

/** What is said beside the buttons of a plan that was moved by hand, or holds works against the weather. */
export function movedWords(moved: boolean, faults: number): string | null {
  if (!moved)
    return faults === 0 ? null : "Files and sheets hold works against weather, window or hours, see above.";
  if (faults === 0) return "Files and sheets hold the works as you moved them.";
  const what = faults === 1 ? "1 of them cannot" : `${faults} of them cannot`;
  return `Files and sheets hold the works as you moved them; ${what} be carried out there, see above.`;
}

/** The plan on paper, in a calendar, in a table, and its question. */
export function Exports({
  planId,
  invented,
  plan,
  moved,
  faults,
  impossible,
  request,
  manner,
  onGiven,
}: ExportsProps) {
  const [trouble, setTrouble] = useState<string | null>(null);
  const save = async (kind: "calendar" | "csv") => {
    const wrong = await saveWritten(kind, plan, planId, impossible);
    setTrouble(wrong);
    if (wrong === null) onGiven();
  };
  const wrong = new Set(faults.map(({ fieldId, op }) => `${fieldId}/${op}`)).size;
  const words = movedWords(moved, wrong);
  const question = () => new Blob([JSON.stringify(request, null, 1)], { type: "application/json" });
  const printed = () => {
    printSheets({
      sheets: daySheets(plan, plan.jobs, manner, { request, faults }),
      head: sheetHead(plan, invented, manner),
      broken: wrong > 0,
    });
    onGiven();
  };
  return (
    <>
      {words === null ? null : <p class={wrong > 0 ? "crew-warned" : "crew-note"}>{words}</p>}
      <div class="crew-buttons">
        <button type="button" class="aid" onClick={printed}>
          Print a day sheet for each machine
        </button>
        <button type="button" class="aid" onClick={() => save("calendar")}>
          Calendar file
        </button>
        <button type="button" class="aid" onClick={() => save("csv")}>
          CSV
        </button>
        <button type="button" class="aid" onClick={() => saveFile("crew-plan-request.json", question())}>
          JSON of the question
        </button>
        {trouble === null ? null : <p role="alert">{trouble}</p>}
      </div>
    </>
  );
}
