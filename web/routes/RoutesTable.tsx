import { SCROLLS } from "../board/BoardTable.tsx";
import { type Manner, numberText } from "../format/manner.ts";
import { type Quantity, toPage, unitName } from "../format/units.ts";
import { ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import { moneyText } from "./money-words.ts";
import type { RouteRow } from "./route-rows.ts";
import { GROUP_WORDS, STEP_GROUPS } from "./steps.ts";
import "./routes-table.css";

interface Line {
  readonly head: string;
  readonly cell: (row: RouteRow) => string;
  readonly strong?: boolean;
}

const NONE = "\u2013";
const NOTED = "\u202f*";

/** The name of a column, marked where a note stands under the table. */
export function columnHead({ route, note }: Pick<RouteRow, "route" | "note">): string {
  return `${sentenceCase(ROUTE_LABELS[route])}${note === null ? "" : NOTED}`;
}

/** The head of the table: a column a route, the first place marked. */
export function ColumnHeads({ rows }: { readonly rows: readonly RouteRow[] }) {
  return (
    <thead>
      <tr>
        <th scope="col">From standing to fed out</th>
        {rows.map((row) => (
          <th scope="col" key={row.route} class={row.first ? "first" : undefined}>
            {columnHead(row)}
          </th>
        ))}
      </tr>
    </thead>
  );
}

/** The notes of the columns, each once. */
export function Notes({ rows }: { readonly rows: readonly RouteRow[] }) {
  const notes = [...new Set(rows.flatMap(({ note }) => note ?? []))];
  return (
    <>
      {notes.map((note) => (
        <p key={note} class="side-note">
          * {note}
        </p>
      ))}
    </>
  );
}

/** Everything the comparison says in numbers, as groups of lines; a column a route. */
export function tableGroups(
  rows: readonly RouteRow[],
  currency: string,
  manner: Manner,
): readonly { readonly title: string; readonly lines: readonly Line[] }[] {
  const n = (value: number | null | undefined, decimals: number) =>
    value === null || value === undefined ? NONE : numberText(value, decimals, manner);
  const per = (value: number, quantity: Quantity, decimals: number) =>
    n(toPage(value, quantity, manner.units), decimals);
  const perArea = (value: number, decimals: number) =>
    value === 0 ? NONE : n(toPage(value, "balesByArea", manner.units), decimals);
  const money = (value: number | null, quantity: "perT" | "perHa") =>
    value === null ? NONE : moneyText(toPage(value, quantity, manner.units), currency, manner);
  const area = unitName("perHa", manner.units);
  const tonne = unitName("perT", manner.units);
  const groups = STEP_GROUPS.filter((group) =>
    rows.some(({ lost }) => lost.some((one) => one.group === group)),
  );
  return [
    {
      title: "Lost, % of the dry matter that stands",
      lines: [
        ...groups.map((group) => ({
          head: sentenceCase(GROUP_WORDS[group]),
          cell: ({ lost }: RouteRow) => n(lost.find((one) => one.group === group)?.ofStandingPct, 1),
        })),
        {
          head: "In all, by these steps of the main forecast",
          cell: ({ keptFraction }) => n(100 * (1 - keptFraction), 1),
          strong: true,
        },
        { head: "In all, middle of the forecasts", cell: ({ lossPct }) => n(lossPct?.p50, 1) },
        {
          head: "In all, 10 to 90 % of the forecasts",
          cell: ({ lossPct }) => {
            if (!lossPct || lossPct.p10 === null || lossPct.p90 === null) return NONE;
            const [least, most] = [n(lossPct.p10, 1), n(lossPct.p90, 1)];
            return least === most ? "same in every forecast" : `${least} to ${most}`;
          },
        },
        {
          head: "Every step at its least or most",
          cell: ({ lossRangePct }) => `${n(lossRangePct.low, 0)} to ${n(lossRangePct.high, 0)}`,
        },
      ],
    },
    {
      title: "Work",
      lines: [
        { head: "Nights lying", cell: ({ daysLying }) => n(daysLying, 0) },
        { head: "Moisture as taken, %", cell: ({ takenAtWb }) => n(takenAtWb * 100, 0) },
        { head: `Bales ${area}`, cell: ({ value }) => perArea(value.bales, 1) },
        { head: "Film, layers", cell: ({ layers }) => n(layers, 0) },
        {
          head: `Preservative, ${unitName("mass", manner.units)} ${area}`,
          cell: ({ value }) => perArea(toPage(value.preservativeKg, "mass", manner.units), 1),
        },
        { head: `Machine hours ${area}`, cell: ({ value }) => perArea(value.machineHours, 2) },
        {
          head: `Own hours ${area}, on top of hired machines`,
          cell: ({ value }) => perArea(value.labourHours, 2),
        },
      ],
    },
    {
      title: "Money",
      lines: [
        { head: `Cost ${area}`, cell: ({ value }) => money(value.costPerHa, "perHa") },
        { head: `Cost ${tonne} fed`, cell: ({ value }) => money(value.costPerT, "perT") },
        {
          head: `Worth ${area} after losses and work`,
          cell: ({ valuePerHa, note }) => `${money(valuePerHa, "perHa")}${note === null ? "" : NOTED}`,
          strong: true,
        },
        { head: `Worth ${tonne} fed`, cell: ({ value }) => money(value.valuePerT, "perT") },
      ],
    },
    {
      title: "Left to feed",
      lines: [
        {
          head: `Dry matter, ${unitName("dryMatterYield", manner.units)}`,
          cell: ({ value }) => per(value.fedTHa, "dryMatterYield", 2),
          strong: true,
        },
      ],
    },
  ];
}

/** The lines of the table, a body a group. */
export function GroupBodies({
  groups,
  rows,
}: {
  readonly groups: ReturnType<typeof tableGroups>;
  readonly rows: readonly RouteRow[];
}) {
  return (
    <>
      {groups.map(({ title, lines }) => (
        <tbody key={title}>
          <tr>
            <th scope="rowgroup" colSpan={rows.length + 1}>
              {title}
            </th>
          </tr>
          {lines.map(({ head, cell, strong }) => (
            <tr key={head}>
              <th scope="row" class={strong ? "strong" : undefined}>
                {head}
              </th>
              {rows.map((row) => (
                <td key={row.route} class={`${strong ? "strong" : ""}${row.first ? " first" : ""}`}>
                  {cell(row)}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      ))}
    </>
  );
}

export function RoutesTable({
  rows,
  currency,
  manner,
}: {
  readonly rows: readonly RouteRow[];
  readonly currency: string;
  readonly manner: Manner;
}) {
  return (
    <section class="table-scroll side-scroll" aria-label="Table of the routes" {...SCROLLS}>
      <table class="side-table">
        <caption>Routes from standing to fed out, best first</caption>
        <ColumnHeads rows={rows} />
        <GroupBodies groups={tableGroups(rows, currency, manner)} rows={rows} />
      </table>
      <Notes rows={rows} />
    </section>
  );
}
