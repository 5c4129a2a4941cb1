import { type CsvQuestion, TEMPERATURE_UNITS } from "../../model/weather/index.ts";
import { Lever } from "./Lever.tsx";

const CHOICE_WORDS: Readonly<Record<string, string>> = {
  [TEMPERATURE_UNITS[0]]: "°C",
  [TEMPERATURE_UNITS[1]]: "°F",
  none: "rain was not measured",
};

export interface QuestionsProps {
  readonly questions: readonly CsvQuestion[];
  readonly answers: Readonly<Record<string, string>>;
  readonly onAnswer: (id: string, choice: string) => void;
}

/** What only the owner of a file knows: it is not used before each is answered. */
export function Questions({ questions, answers, onAnswer }: QuestionsProps) {
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
      <p class="hint">Answer, then press the button below again.</p>
    </section>
  );
}
