import type { CsvProblem } from "../../model/weather/index.ts";

/** What was found in a file: errors before warnings, each with its row, column, value and limit. */
export function Problems({
  of,
  problems,
}: {
  readonly of: string;
  readonly problems: readonly CsvProblem[];
}) {
  const errors = problems.filter(({ severity }) => severity === "error");
  const warnings = problems.filter(({ severity }) => severity === "warning");
  const said =
    errors.length > 0
      ? `${of} was not used: ${errors.length} ${errors.length === 1 ? "thing is" : "things are"} wrong. The board keeps its last answer.`
      : `${of} is used${warnings.length > 0 ? "; look at this:" : "; nothing to remark."}`;
  return (
    <div class={errors.length > 0 ? "problems wrong" : "problems"} role="status">
      <p>
        <strong>{said}</strong>
      </p>
      {problems.length === 0 ? null : (
        <div class="scroll">
          <table>
            <caption class="hidden">Problems of {of}</caption>
            <thead>
              <tr>
                <th scope="col">Row</th>
                <th scope="col">Column</th>
                <th scope="col">Value</th>
                <th scope="col">Limit</th>
                <th scope="col">What is wrong</th>
              </tr>
            </thead>
            <tbody>
              {[...errors, ...warnings].map((problem) => (
                <tr key={`${problem.code} ${problem.row} ${problem.column} ${problem.message}`}>
                  <td>{problem.row ?? "file"}</td>
                  <td>{problem.column ?? "all"}</td>
                  <td>{problem.value ?? ""}</td>
                  <td>{problem.limit ?? ""}</td>
                  <td>{problem.message}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </div>
      )}
    </div>
  );
}
