import type { CutOptionAnswer, RouteAnswer, WindowsAnswer } from "../../model/harvest/answer.ts";
import { wholePercent } from "../../model/odds/in-ten.ts";
import { fullText, shortFullText } from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { PAGE_UNITS, toPage, type Units, unitName } from "../format/units.ts";
import { toldWorkHours, windowTimes } from "../format/window-times.ts";
import { ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import "./table.css";
import { HeadRow } from "../table/HeadRow.tsx";

interface TableProps {
  readonly answer: WindowsAnswer;
  readonly manner: Manner;
  readonly brief?: boolean;
}

/** Hours after the cut between which the estimates come down to the band, rounded outward: never a bare hour. */
function opinionsRange({ opinionHours: { earliest, latest } }: RouteAnswer): string {
  if (earliest === null) return "–";
  return latest === null
    ? `${Math.floor(earliest)} or more`
    : `${Math.floor(earliest)} to ${Math.ceil(latest)}`;
}

/**
 * Cells of one route of one option, in the order of the heads. Brief, as on paper: days without their year, and the reason
 * only where there is no window, since the numbers of the others stand in their columns.
 */
export function boardCells(
  option: CutOptionAnswer,
  route: RouteAnswer,
  manner: Manner,
  brief = false,
): readonly string[] {
  const told = brief ? shortFullText : fullText;
  const window = route.windows[0];
  const times = window && windowTimes(window);
  const chance = route.odds?.chance;
  const treatment = option.treatment === null || option.treatment === "swath" ? "" : ` (${option.treatment})`;
  return [
    option.cutUtc === null
      ? "Standing"
      : `${told(option.cutUtc, manner)}${treatment}${option.made ? ", lies" : ""}`,
    sentenceCase(ROUTE_LABELS[route.route]),
    times ? told(times.startMs, manner) : "–",
    times ? told(times.endMs, manner) : "–",
    window ? numberText(toldWorkHours(window), 1, manner) : "–",
    chance === undefined ? "–" : wholePercent(chance),
    numberText(
      toPage(route.rainMm.mean, "rain", manner.units),
      PAGE_UNITS.rain[manner.units].decimals,
      manner,
    ),
    route.lossPct === null ? "–" : numberText(route.lossPct.p50, 0, manner),
    route.valuePerHa === null ? "–" : numberText(toPage(route.valuePerHa, "perHa", manner.units), 0, manner),
    opinionsRange(route),
    route.rank === null ? "–" : String(route.rank),
    brief ? (window ? "" : (route.why[0]?.text ?? "")) : route.why.map(({ text }) => text).join(" "),
  ];
}

export function boardHeads(units: Units, averaged: boolean): readonly string[] {
  return [
    "Cut",
    "Route",
    "Starts",
    "Ends",
    "Working hours",
    "Chance to come in at all, %",
    `Rain on swath${averaged ? " on average" : ""}, ${unitName("rain", units)}`,
    "Loss, %",
    `Value ${unitName("perHa", units)}`,
    "Dry enough by the estimates, h after cut",
    "Rank",
    "Why",
  ];
}

/** The window is the forecast's own, the rain beside it is not: without a word a dry window beside it reads as a fault. */
const AVERAGE_RAIN =
  " Rain on the swath is on average over the chances, those counted too that are brought in later or never.";

const NUMERIC = new Set([4, 5, 6, 7, 8, 9, 10]);

/** A region that scrolls must be reachable by keys. */
export const SCROLLS = { tabIndex: 0 } as const;

interface Cell {
  readonly text: string;
  readonly numeric: boolean;
  /** Columns that it takes. */
  readonly span: number;
}

/** Where a window's times would stand. */
const TIMES = { from: 2, to: 5 } as const;

/** The cells as they stand in the table: on paper why there is no window stands where its times would, and has no column. */
function placedCells(cells: readonly string[], brief: boolean): readonly Cell[] {
  const placed = cells.map((text, i) => ({ text, numeric: NUMERIC.has(i), span: 1 }));
  if (!brief) return placed;
  const why = cells.at(-1) ?? "";
  const others = placed.slice(0, -1);
  if (why === "") return others;
  const told = { text: why, numeric: false, span: TIMES.to - TIMES.from };
  return [...others.slice(0, TIMES.from), told, ...others.slice(TIMES.to)];
}

/** The whole board in words and numbers: every cut option with every route, its first window. */
export function BoardTable({ answer, manner, brief = false }: TableProps) {
  const averaged = answer.odds !== undefined;
  const heads = boardHeads(manner.units, averaged).slice(0, brief ? -1 : undefined);
  return (
    <section class="table-scroll" aria-label="Table of the board" {...SCROLLS}>
      <table class="board-table">
        <caption>
          Every cut time with every route; the first window of each. Times are the farm's.
          {averaged ? AVERAGE_RAIN : null}
        </caption>
        <HeadRow heads={heads} isNumeric={(i) => NUMERIC.has(i)} />
        <tbody>
          {answer.options.flatMap((option) =>
            option.routes.map((route) => {
              const [cut, ...rest] = placedCells(boardCells(option, route, manner, brief), brief);
              return (
                <tr key={`${option.id} ${route.route}`}>
                  <th scope="row">{cut?.text}</th>
                  {rest.map(({ text, numeric, span }, i) => (
                    <td
                      key={heads[i + 1]}
                      class={span > 1 ? "no-window" : numeric ? "number" : undefined}
                      colSpan={span > 1 ? span : undefined}
                    >
                      {text}
                    </td>
                  ))}
                </tr>
              );
            }),
          )}
        </tbody>
      </table>
    </section>
  );
}
