import type { CrewPlanAnswer } from "../../model/crew/index.ts";
import { SCROLLS } from "../board/BoardTable.tsx";
import type { Manner } from "../format/manner.ts";
import { HeadRow } from "../table/HeadRow.tsx";
import type { Caution } from "./all-faults.ts";
import { NONE, type PlanRow, planRows } from "./plan-rows.ts";
import "./crew-table.css";

interface PlanTableProps {
  readonly plan: CrewPlanAnswer;
  /** What speaks against works as they stand. */
  readonly faults: readonly Caution[];
  readonly manner: Manner;
}

const COLUMNS = [
  ["work", "Work"],
  ["machine", "Machine"],
  ["who", "Who"],
  ["starts", "Starts"],
  ["ends", "Ends"],
  ["window", "Window"],
  ["spare", "Spare"],
  ["chance", "Dry, %"],
  ["caution", "Caution"],
] as const satisfies readonly (readonly [keyof PlanRow, string])[];

/** Every work with its hours, the window that its mowing opens, and what is left of it. On a phone a work is a block of lines. */
export function PlanTable({ plan, faults, manner }: PlanTableProps) {
  return (
    <section class="table-scroll crew-table" aria-label="Table of the plan" {...SCROLLS}>
      <table class="board-table">
        <caption>
          Every work of the plan. The window is the one that the mowing opens, or where that comes first the
          hours that the work before leaves to begin in; spare is what is left of it, or of the light; dry is
          the chance that the whole field is finished dry
        </caption>
        <HeadRow heads={["Field", ...COLUMNS.map(([, head]) => head)]} />
        <tbody>
          {planRows(plan, faults, manner).map((row) => (
            <tr key={row.key}>
              <th scope="row">{row.field}</th>
              {COLUMNS.map(([column, head]) => (
                <td
                  key={column}
                  data-head={head}
                  class={`of-${column}${row[column] === NONE ? " of-none" : ""}`}
                >
                  {row[column]}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
