import { type CsvQuestion, TEMPERATURE_UNITS } from "../../model/weather/index.ts";
import { STATION_UNITS } from "../../model/weather/station/units.ts";
import { Lever } from "./Lever.tsx";

const CHOICE_WORDS: Readonly<Record<string, string>> = {
  ...Object.fromEntries(
    Object.values(STATION_UNITS).flatMap((units) => units.map(({ key, label }) => [key, label])),
  ),
  [TEMPERATURE_UNITS[0]]: "°C",
  [TEMPERATURE_UNITS[1]]: "°F",
  none: "rain was not measured",
  dmy: "day first",
  mdy: "month first",
  utc: "UTC",
  standard: "standard time all year",
  daylight: "daylight saving",
  start: "its start",
  end: "its end",
  instant: "that moment",
  mps: "m/s",
  kmh: "km/h",
  knot: "knots",
  Wm2: "W/m²",
  MJm2: "MJ/m²",
  langley: "langley",
  inch: "inches",
  pct: "%",
  rainMm: "the rain of each row",
  rainTotalMm: "a counter",
};

export interface QuestionsProps {
  readonly questions: readonly CsvQuestion[];
  readonly answers: Readonly<Record<string, string>>;
  readonly onAnswer: (id: string, choice: string) => void;
  /** What happens with the answers. */
  readonly hint?: string | undefined;
}

/** What only the owner of a file knows: it is not used before each is answered. */
export function Questions({
  questions,
  answers,
  onAnswer,
  hint = "Answer, then press the button below again.",
}: QuestionsProps) {
  if (questions.length === 0) return null;
  return (
    <section class="questions" aria-label="Questions about the file">
      {questions.map(({ id, ask, choices }) => (
        <div key={id} class="question">
          <Lever
            label={ask}
            value={answers[id] ?? null}
            choices={choices.map((choice) => [choice, CHOICE_WORDS[choice] ?? choice] as const)}
            onChoice={(choice) => onAnswer(id, choice)}
          />
        </div>
      ))}
      <p class="hint">{hint}</p>
    </section>
  );
}
