import type { CsvProblem } from "../../model/weather/index.ts";
import type { Clock } from "../format/farm-time.ts";
import { peoplesWords } from "../format/people-words.ts";
import "./problems.css";

/** A question has its own control: here it is only counted. */
const OPEN_QUESTION = "open-question";

/** Where in the file, and what stands there. */
function placeOf({ row, column, value }: CsvProblem): string {
  const parts = [
    row === null ? "Whole file" : `Row ${row}`,
    ...(column === null ? [] : [`column ${column}`]),
    ...(value === null ? [] : [`value ${value}`]),
  ];
  return parts.join(", ");
}

/** What is wrong and what would be right, without saying the place twice. */
function faultOf({ row, column, message, limit }: CsvProblem, clock: Clock): string {
  const prefix = `row ${row}, ${column}: `;
  const text = message.startsWith(prefix) ? message.slice(prefix.length) : message;
  const whole = limit === null || text.includes(limit) ? text : `${text} (limit: ${limit})`;
  return peoplesWords(whole, clock, column);
}

/** What was found in a file: errors before warnings, each with its row, column, value and limit. */
export function Problems({
  of,
  problems,
  clock = { zone: "UTC", hour12: false },
  pending = false,
}: {
  readonly of: string;
  readonly problems: readonly CsvProblem[];
  /** The farm's, on which the moments of the file are told. */
  readonly clock?: Clock;
  /** Read without a fault, but not yet taken. */
  readonly pending?: boolean;
}) {
  const errors = problems.filter(({ severity }) => severity === "error");
  const questions = errors.filter(({ code }) => code === OPEN_QUESTION).length;
  const warnings = problems.filter(({ severity }) => severity === "warning");
  const wrong = errors.length > 0;
  const said =
    wrong && questions === errors.length
      ? `${of} is not used yet: ${questions === 1 ? "a question stands" : `${questions} questions stand`} above. The board keeps its last answer.`
      : wrong
        ? `${of} was not used: ${errors.length} ${errors.length === 1 ? "thing is" : "things are"} wrong. The board keeps its last answer.`
        : `${of} ${pending ? "can be used" : "is used"}${warnings.length > 0 ? "; look at this:" : "; nothing to remark."}`;
  return (
    <div class={wrong ? "problems wrong" : "problems"} role="status">
      <p>
        <strong>{said}</strong>
      </p>
      <ul>
        {[...errors, ...warnings]
          .filter(({ code }) => code !== OPEN_QUESTION)
          .map((problem) => (
            <li key={`${problem.code} ${problem.row} ${problem.column} ${problem.message}`}>
              <strong>{placeOf(problem)}</strong>
              <span>{faultOf(problem, clock)}</span>
            </li>
          ))}
      </ul>
    </div>
  );
}
