import { useState } from "preact/hooks";
import type { CsvProblem } from "../../model/weather/index.ts";
import type { MendedCell } from "../../model/weather/mended-cells.ts";
import type { WeatherFile } from "../../model/weather/station/weather-file.ts";
import { numberMarksOf } from "../format/manner.ts";
import { notANumber, readNumber } from "../state/numbers.ts";
import { TextField } from "./Field.tsx";

const RAIN_OF_ROW: readonly string[] = ["rainMm", "rainRateMmH"];

/** An amount of rain of one row that cannot be: its hour would close the weather from there. */
export function impossibleRain(problems: readonly CsvProblem[], report: WeatherFile | null): CsvProblem[] {
  return problems.filter(({ code, column, row, value }) => {
    if (code !== "out-of-range" || row === null || value === null || column === null) return false;
    const as = report?.understood.find((one) => one.column === column)?.as ?? column;
    return RAIN_OF_ROW.includes(as);
  });
}

function RainMend({
  problem: { row, column, value },
  locale,
  onMend,
}: {
  readonly locale: string;
  readonly problem: CsvProblem;
  readonly onMend: (cell: MendedCell) => void;
}) {
  const [amount, setAmount] = useState("");
  const marks = numberMarksOf(locale);
  const number = readNumber(amount, marks);
  const error =
    amount.trim() === ""
      ? undefined
      : number === null
        ? notANumber(amount, marks)
        : number < 0
          ? `Got "${amount.trim()}", must be a number of at least 0.`
          : undefined;
  const mend = (by: string) => onMend({ row: row ?? 0, value: value ?? "", by });
  return (
    <li>
      <p>
        Row {row}, {column}: {value} is more rain than can fall. What fell?
      </p>
      <div class="rain-mend">
        <button type="button" class="aid" onClick={() => mend("0")}>
          No rain in that hour
        </button>
        <TextField label="Amount, as the file writes it" value={amount} error={error} onText={setAmount} />
        <button
          type="button"
          class="aid"
          disabled={number === null || number < 0}
          onClick={() => mend(String(number))}
        >
          Use this amount
        </button>
      </div>
    </li>
  );
}

/** What its owner knows of rain that a file has wrong: the file is read again with it. The file itself stays as it is. */
export function RainMends({
  problems,
  locale = "en",
  onMend,
}: {
  readonly locale?: string | undefined;
  readonly problems: readonly CsvProblem[];
  readonly onMend: (cell: MendedCell) => void;
}) {
  if (problems.length === 0) return null;
  return (
    <ul class="rain-mends" aria-label="Rain that cannot be">
      {problems.map((problem) => (
        <RainMend
          key={`${problem.row} ${problem.column}`}
          problem={problem}
          locale={locale}
          onMend={onMend}
        />
      ))}
    </ul>
  );
}
