import type { DueItem } from "../../model/book/due/item.ts";
import { DAY_MS } from "../../model/weather/clock.ts";
import { Fold } from "../fold/Fold.tsx";
import type { Manner } from "../format/manner.ts";
import { useWidth } from "../format/use-width.ts";
import { daysInWords, dueSentence, dueStrip, dueTime } from "./due-strip.ts";
import { DUE_DAYS, LATER_DAYS } from "./use-due.ts";
import "./due.css";

function Picture({ items, nowMs, manner }: DueListProps) {
  const { ref, widthPx: width } = useWidth<HTMLDivElement>();
  const zone = items[0]?.timeZone ?? manner.zone;
  const strip = dueStrip(items, nowMs, DUE_DAYS, width, { zone });
  const { height, columnW, footY } = strip;
  return (
    <div ref={ref} class="due-strip">
      {width === 0 ? null : (
        <svg
          viewBox={`0 0 ${width} ${height}`}
          width={width}
          height={height}
          role="img"
          aria-label={dueSentence(items, DUE_DAYS, manner)}
        >
          {strip.days.map(({ x, label, number }, i) => (
            <g key={x}>
              <rect
                class={i % 2 === 0 ? "due-day" : "due-day other"}
                x={x}
                y={0}
                width={columnW}
                height={footY}
              />
              <text x={x + columnW / 2} y={footY + 15} text-anchor="middle">
                {label}
              </text>
              <text x={x + columnW / 2} y={footY + 31} text-anchor="middle">
                {number}
              </text>
            </g>
          ))}
          {strip.marks.map(({ id, x, y, date, overdue, title }) => (
            <g key={id} class={overdue ? "due-late" : "due-mark"}>
              <title>{title}</title>
              {overdue ? (
                <path d={`M${x} ${y - 6}l7 12h-14z`} />
              ) : date ? (
                <circle cx={x} cy={y} r={5} />
              ) : (
                <rect x={x - 6} y={y - 6} width={12} height={12} />
              )}
            </g>
          ))}
        </svg>
      )}
      <p class="due-key">
        <span>■ work</span> <span>○ a date that comes</span>{" "}
        <span class="due-late-word">▲ overdue, or danger</span>
      </p>
    </div>
  );
}

export interface DueListProps {
  /** Whose days these are, where it is not the farm's own book: each list is found by its name. */
  readonly of?: string;
  readonly items: readonly DueItem[];
  readonly nowMs: number;
  readonly manner: Manner;
}

function Table({ items, manner, caption }: Omit<DueListProps, "nowMs"> & { readonly caption: string }) {
  return (
    <table>
      <caption>{caption}</caption>
      <thead>
        <tr>
          <th scope="col">When</th>
          <th scope="col">What</th>
        </tr>
      </thead>
      <tbody>
        {items.map((item) => (
          <tr key={item.id}>
            <th scope="row">
              {dueTime(item, manner)}
              {item.overdue ? <strong class="due-late-word"> overdue</strong> : null}
              {item.danger ? <strong class="due-late-word"> danger</strong> : null}
            </th>
            <td>
              {item.title}. {daysInWords(item, manner)}
              {item.source === null ? null : <span class="hint"> Source: {item.source}.</span>}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** What the coming days ask for: a sentence, a picture, and the list under it; what comes later by itself. */
export function DueList({ items, nowMs, manner, of }: DueListProps) {
  const endMs = nowMs + DUE_DAYS * DAY_MS;
  const soon = items.filter(({ atUtc }) => Date.parse(atUtc) < endMs);
  const later = items.filter(({ atUtc }) => Date.parse(atUtc) >= endMs);
  const danger = soon.some((item) => item.danger !== null);
  return (
    <section class="book-due" aria-label={of === undefined ? "What is due" : `What is due, ${of}`}>
      <p class={danger ? "book-says book-wrong" : "book-says"}>{dueSentence(soon, DUE_DAYS, manner)}</p>
      {soon.length === 0 ? null : (
        <>
          <Picture items={soon} nowMs={nowMs} manner={manner} />
          <Fold summary="List of what is due">
            {() => (
              <Table
                items={soon}
                manner={manner}
                caption={`What is due in the coming ${DUE_DAYS} days, on the farm's clock`}
              />
            )}
          </Fold>
        </>
      )}
      {later.length === 0 ? null : (
        <Fold summary={`Later: ${later.length} in ${LATER_DAYS / 7} weeks`}>
          {() => (
            <Table
              items={later}
              manner={manner}
              caption={`What comes after that, within ${LATER_DAYS / 7} weeks`}
            />
          )}
        </Fold>
      )}
    </section>
  );
}
