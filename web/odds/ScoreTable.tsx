import { SCROLLS } from "../board/BoardTable.tsx";
import { HeadRow } from "../table/HeadRow.tsx";

export interface ScoreRow {
  readonly key: string;
  /** The first names the row; where there are fewer than heads the last takes the rest of the row. */
  readonly cells: readonly string[];
}

/** A table of scores. On a narrow page each row is folded into lines, each with the name of its column. */
export function ScoreTable({
  label,
  caption,
  heads,
  rows,
}: {
  readonly label: string;
  readonly caption: string;
  readonly heads: readonly string[];
  readonly rows: readonly ScoreRow[];
}) {
  return (
    <section class="odds-scroll" aria-label={label} {...SCROLLS}>
      <table class="score-table">
        <caption>{caption}</caption>
        <HeadRow heads={heads} />
        <tbody>
          {rows.map(({ key, cells: [name, ...cells] }) => (
            <tr key={key}>
              <th scope="row">{name}</th>
              {cells.map((text, i) => {
                const rest = i === cells.length - 1 ? heads.length - 1 - i : 1;
                return (
                  <td
                    key={heads[i + 1]}
                    data-of={rest > 1 ? "Scores" : heads[i + 1]}
                    colSpan={rest > 1 ? rest : undefined}
                  >
                    {text}
                  </td>
                );
              })}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}
