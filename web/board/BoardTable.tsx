import type { CutOptionAnswer, RouteAnswer, WindowsAnswer } from "../../model/harvest/answer.ts";
import { fullText } from "../format/farm-time.ts";
import { ROUTE_LABELS, sentenceCase } from "../format/words.ts";

interface TableProps {
  readonly answer: WindowsAnswer;
  readonly timeZone: string;
}

const number = (value: number, digits: number) => value.toFixed(digits);

/** Hours after the cut between which the estimates come down to the band, rounded outward: never a bare hour. */
function opinionsRange({ opinionHours: { earliest, latest } }: RouteAnswer): string {
  if (earliest === null) return "–";
  return latest === null
    ? `${Math.floor(earliest)} or more`
    : `${Math.floor(earliest)} to ${Math.ceil(latest)}`;
}

/** Cells of one route of one option, in the order of the heads. */
export function boardCells(option: CutOptionAnswer, route: RouteAnswer, timeZone: string): readonly string[] {
  const window = route.windows[0];
  const treatment = option.treatment === null || option.treatment === "swath" ? "" : ` (${option.treatment})`;
  return [
    option.cutUtc === null ? "Standing" : `${fullText(option.cutUtc, timeZone)}${treatment}`,
    sentenceCase(ROUTE_LABELS[route.route]),
    window ? fullText(window.startUtc, timeZone) : "–",
    window ? fullText(window.endUtc, timeZone) : "–",
    window ? number(window.workHours, 1) : "–",
    number(route.rainMm.mean, 1),
    opinionsRange(route),
    route.rank === null ? "–" : String(route.rank),
    route.why.map(({ text }) => text).join(" "),
  ];
}

export const BOARD_HEADS = [
  "Cut",
  "Route",
  "Starts",
  "Ends",
  "Working hours",
  "Rain on swath, mm",
  "Dry enough by the estimates, h after cut",
  "Rank",
  "Why",
] as const;

const NUMERIC = new Set([4, 5, 6, 7]);

/** A region that scrolls must be reachable by keys. */
export const SCROLLS = { tabIndex: 0 } as const;

/** The whole board in words and numbers: every cut option with every route, its first window. */
export function BoardTable({ answer, timeZone }: TableProps) {
  return (
    <section class="table-scroll" aria-label="Table of the board" {...SCROLLS}>
      <table class="board-table">
        <caption>Every cut time with every route; the first window of each. Times are the farm's.</caption>
        <thead>
          <tr>
            {BOARD_HEADS.map((head, i) => (
              <th key={head} scope="col" class={NUMERIC.has(i) ? "number" : undefined}>
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {answer.options.flatMap((option) =>
            option.routes.map((route) => {
              const [cut, ...rest] = boardCells(option, route, timeZone);
              return (
                <tr key={`${option.id} ${route.route}`}>
                  <th scope="row">{cut}</th>
                  {rest.map((cell, i) => (
                    <td key={BOARD_HEADS[i + 1]} class={NUMERIC.has(i + 1) ? "number" : undefined}>
                      {cell}
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
