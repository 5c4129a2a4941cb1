import type { ProblemList } from "./problems.ts";

/** What a file leaves open and only its owner knows. Until it is answered there is no series. */

export interface CsvQuestion {
  /** The name under which the answer is given. */
  readonly id: string;
  readonly column: string;
  readonly ask: string;
  readonly choices: readonly string[];
}

export const TEMPERATURE_UNITS = ["degC", "degF"] as const;
export type TemperatureUnit = (typeof TEMPERATURE_UNITS)[number];

/** Answers given beside the file. */
export interface CsvAnswers {
  /** Unit of the air temperature. */
  readonly airTempC?: TemperatureUnit | undefined;
  /** Unit of the dew point. */
  readonly dewPointC?: TemperatureUnit | undefined;
  /** The column that holds the rain of each hour in mm, or "none" where rain was not measured. */
  readonly rainMm?: string | undefined;
}

/** The answer that there is no rain in the file. */
export const NO_RAIN_COLUMN = "none";

export function askTemperatureUnit(column: "airTempC" | "dewPointC", doubt: string): CsvQuestion {
  return {
    id: column,
    column,
    ask: `Is ${column} in degC or degF? ${doubt}`,
    choices: TEMPERATURE_UNITS,
  };
}

/** Asks which of the columns whose names speak of rain holds it. */
export function askRainColumn(candidates: readonly string[]): CsvQuestion {
  return {
    id: "rainMm",
    column: candidates[0] ?? "rainMm",
    ask:
      `There is no column rainMm. Does ${candidates.join(" or ")} hold the rain of each hour in mm? ` +
      `Answer ${NO_RAIN_COLUMN} for weather without rain measured: it is then assumed dry.`,
    choices: [...candidates, NO_RAIN_COLUMN],
  };
}

/** An open question stands among the problems too, so that a reader of problems alone learns why there is no series. */
export function reportQuestions(questions: readonly CsvQuestion[], problems: ProblemList): void {
  for (const { id, column, ask, choices } of questions) {
    const limit = `${id} = ${choices.join(" or ")}`;
    problems.error("open-question", `column ${column}: ${ask}`, { column, limit });
  }
}
