import { render } from "preact";
import { SCROLLS } from "../board/BoardTable.tsx";
import type { DaySheet } from "./day-sheets.ts";

interface SheetsProps {
  readonly sheets: readonly DaySheet[];
  readonly invented: boolean;
  /** Works were moved by hand to hours that break something. */
  readonly broken: boolean;
}

export function DaySheets({ sheets, invented, broken }: SheetsProps) {
  return (
    <div class="crew-sheets">
      {sheets.map(({ machine, lines }) => (
        <section
          class="crew-sheet table-scroll"
          key={machine}
          aria-label={`Day sheet: ${machine}`}
          {...SCROLLS}
        >
          <h3>
            {machine}
            {invented ? " (invented demonstration crew)" : ""}
          </h3>
          <table class="board-table">
            <thead>
              <tr>
                {["Day", "From", "To", "Work", "Field", "Who", "Moisture", "Done"].map((head) => (
                  <th scope="col" key={head}>
                    {head}
                  </th>
                ))}
              </tr>
            </thead>
            <tbody>
              {lines.map((line) => (
                <tr key={line.key}>
                  <td>{line.day}</td>
                  <td>{line.from}</td>
                  <td>{line.to}</td>
                  <td>{line.work}</td>
                  <th scope="row">{line.field}</th>
                  <td>{line.person}</td>
                  <td />
                  <td />
                </tr>
              ))}
            </tbody>
          </table>
          {broken ? (
            <p>
              <b>
                Works were moved by hand, and not all can be carried out at these hours: ask before you drive.
              </b>
            </p>
          ) : null}
          <p>
            Weather decides: look at the sky and the swath before each work. Wrong moisture: stop and call.
          </p>
        </section>
      ))}
    </div>
  );
}

/** Prints the day sheets and nothing else of the page, one machine a page. */
export function printSheets(sheets: readonly DaySheet[], invented: boolean, broken: boolean): void {
  const paper = document.createElement("div");
  paper.className = "crew-paper";
  document.body.append(paper);
  document.body.classList.add("prints-crew");
  render(<DaySheets sheets={sheets} invented={invented} broken={broken} />, paper);
  print();
  render(null, paper);
  paper.remove();
  document.body.classList.remove("prints-crew");
}
