import { Fragment, render } from "preact";
import { SCROLLS } from "../board/BoardTable.tsx";
import { hasPrinted, marginsSaid, SETS_MARGINS, setMargins } from "../print/paper.ts";
import type { DaySheet, SheetDay } from "./day-sheets.ts";
import "./crew-sheets.css";

interface SheetsProps {
  readonly sheets: readonly DaySheet[];
  /** Head of the page: whose sheets, from when, which plan; over each machine where the browser prints no heads. */
  readonly head: readonly [string, string, string];
  /** Works stand at hours that break something. */
  readonly broken: boolean;
}

const HEADS = ["When", "Work", "Field", "Place", "Who", "Moisture", "Done"] as const;

function Day({ day: { day, people, lines } }: { readonly day: SheetDay }) {
  return (
    <table class="board-table">
      <caption>
        <b>{day}</b>: {people}
      </caption>
      <thead>
        <tr>
          {HEADS.map((head) => (
            <th scope="col" key={head}>
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {lines.map((line) => (
          <Fragment key={line.key}>
            <tr>
              <td class="crew-when">
                <span>{line.from}</span> <span>to {line.to}</span>
              </td>
              <td>{line.work}</td>
              <th scope="row">
                {line.field}
                <small>{[line.area, line.customer].filter(Boolean).join(", ")}</small>
              </th>
              <td>
                {line.place}
                {line.drive === null ? null : <small>{line.drive}</small>}
              </td>
              <td>{line.person}</td>
              <td class="crew-moisture">
                {line.moisture === null ? null : (
                  <>
                    {line.work.toLowerCase()} at <b>{line.moisture}</b>
                  </>
                )}
              </td>
              <td />
            </tr>
            {line.cautions.length === 0 ? null : (
              <tr>
                <td colSpan={HEADS.length}>
                  <b>
                    {line.work} {line.field}: {line.cautions.join("; ")}. Ask before you drive.
                  </b>
                </td>
              </tr>
            )}
          </Fragment>
        ))}
      </tbody>
    </table>
  );
}

export function DaySheets({ sheets, head, broken }: SheetsProps) {
  const [title, from, which] = head;
  return (
    <div class="crew-sheets">
      {sheets.map(({ machine, days, places, feed }) => (
        <section
          class="crew-sheet table-scroll"
          key={machine}
          aria-label={`Day sheet: ${machine}`}
          {...SCROLLS}
        >
          <h3>{machine}</h3>
          {SETS_MARGINS ? null : (
            <p>
              {title}. {from}. {which}.
            </p>
          )}
          {days.map((day) => (
            <Day key={day.key} day={day} />
          ))}
          {feed.map((text) => (
            <p key={text}>
              <b>{text}</b>
            </p>
          ))}
          {places.length === 0 ? null : <p>{places.join("; ")}.</p>}
          {broken ? (
            <p>
              <b>Not all works of this plan can be carried out at these hours: ask before you drive.</b>
            </p>
          ) : null}
          <p>
            Weather decides: look at the sky and the swath before each work.{" "}
            {days.some(({ lines }) => lines.some(({ moisture }) => moisture !== null))
              ? "Moisture outside what is printed here: stop and call."
              : "In doubt: stop and call."}
          </p>
        </section>
      ))}
    </div>
  );
}

let running: (() => void) | null = null;

/** Prints the day sheets and nothing else of the page, one machine a page, under a head of their own. */
export function printSheets(props: SheetsProps): void {
  running?.();
  const paper = document.createElement("div");
  paper.className = "crew-paper";
  document.body.append(paper);
  document.body.classList.add("prints-crew");
  render(<DaySheets {...props} />, paper);
  const before = marginsSaid();
  setMargins(...props.head);
  const end = () => {
    running = null;
    removeEventListener("afterprint", end);
    setMargins(...before);
    render(null, paper);
    paper.remove();
    document.body.classList.remove("prints-crew");
  };
  running = end;
  addEventListener("afterprint", end);
  // Where the browser does not print at all there is nothing to wait for.
  if (!hasPrinted()) end();
}
