import { useId } from "preact/hooks";
import { type CsvQuestion, TEMPERATURE_UNITS } from "../../model/weather/index.ts";

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

function Question({
  question,
  answers,
  onAnswer,
}: Omit<QuestionsProps, "questions"> & { readonly question: CsvQuestion }) {
  const { id, ask, choices } = question;
  const name = useId();
  return (
    <fieldset class="lever question">
      <legend>{ask}</legend>
      <div class="lever-choices">
        {choices.map((choice) => (
          <label key={choice} class={answers[id] === choice ? "chosen" : ""}>
            <input
              type="radio"
              name={name}
              checked={answers[id] === choice}
              onChange={() => onAnswer(id, choice)}
            />
            <span>{CHOICE_WORDS[choice] ?? choice}</span>
          </label>
        ))}
      </div>
    </fieldset>
  );
}

/** What only the owner of a file knows: it is not used before each is answered. */
export function Questions({ questions, answers, onAnswer }: QuestionsProps) {
  if (questions.length === 0) return null;
  return (
    <section class="questions" aria-label="Questions about the file">
      {questions.map((question) => (
        <Question key={question.id} question={question} answers={answers} onAnswer={onAnswer} />
      ))}
      <p class="hint">Answer, then press the button below again.</p>
    </section>
  );
}
