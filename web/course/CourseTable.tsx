import { SCROLLS } from "../board/BoardTable.tsx";
import { HeadRow } from "../table/HeadRow.tsx";
import type { CourseInput } from "./course-picture.ts";
import { courseRows } from "./course-rows.ts";

/** Columns with which two halves of the table stand beside each other on a sheet. */
const MOST_HALVED = 13;

/** The course hour by hour, each second opinion beside it; on paper every third hour, and every hour with work or rain. */
export function CourseTable({
  input,
  brief = false,
}: {
  readonly input: CourseInput;
  readonly brief?: boolean;
}) {
  const { heads, rows } = courseRows(input, brief);
  const isNumeric = (i: number) => i > 0 && heads[i] !== "Operation";
  return (
    <section class="table-scroll" aria-label="Table of the course" {...SCROLLS}>
      <table class={brief && heads.length <= MOST_HALVED ? "course-table halved" : "course-table"}>
        <caption>
          Moisture at the end of {brief ? "every third hour, and of those with work or rain" : "each hour"}, %
          wet basis; free water apart. Times are the farm's.
        </caption>
        <HeadRow heads={heads} isNumeric={isNumeric} />
        <tbody>
          {rows.map(([hour, ...cells]) => (
            <tr key={hour}>
              <th scope="row">{hour}</th>
              {cells.map((cell, i) => (
                <td key={heads[i + 1]} class={isNumeric(i + 1) ? "number" : undefined}>
                  {cell}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
