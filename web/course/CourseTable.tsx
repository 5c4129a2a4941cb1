import { SCROLLS } from "../board/BoardTable.tsx";
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
  return (
    <section class="table-scroll" aria-label="Table of the course" {...SCROLLS}>
      <table class={brief && heads.length <= MOST_HALVED ? "course-table halved" : "course-table"}>
        <caption>
          Moisture at the end of {brief ? "every third hour, and of those with work or rain" : "each hour"}, %
          wet basis; free water apart. Times are the farm's.
        </caption>
        <thead>
          <tr>
            {heads.map((head, i) => (
              <th key={head} scope="col" class={i === 0 || head === "Operation" ? undefined : "number"}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.map(([hour, ...cells]) => (
            <tr key={hour}>
              <th scope="row">{hour}</th>
              {cells.map((cell, i) => (
                <td key={heads[i + 1]} class={heads[i + 1] === "Operation" ? undefined : "number"}>
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
