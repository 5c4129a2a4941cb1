import { useRef, useState } from "preact/hooks";
import type { CrewPlanRequest } from "../../model/crew/index.ts";
import type { Issue } from "../../model/limits.ts";
import { readCrewFile } from "./crew-file.ts";

interface TakeInProps {
  readonly onRequest: (request: CrewPlanRequest) => void;
}

interface Read {
  readonly name: string;
  readonly issues: readonly Issue[];
}

const MOST_SHOWN = 12;

/** A question from a file. One that is wrong changes nothing: what is wrong with it is said field by field. */
export function TakeInFile({ onRequest }: TakeInProps) {
  const input = useRef<HTMLInputElement>(null);
  const [read, setRead] = useState<Read | null>(null);
  const take = async (file: File | undefined) => {
    if (file === undefined) return;
    const outcome = readCrewFile(await file.text());
    setRead({ name: file.name, issues: outcome.ok ? [] : outcome.issues });
    if (outcome.ok) onRequest(outcome.value);
    if (input.current) input.current.value = "";
  };
  const issues = read?.issues ?? [];
  return (
    <div class="crew-file">
      <label>
        Take in a question (JSON):{" "}
        <input
          ref={input}
          type="file"
          accept=".json,application/json"
          onChange={({ currentTarget }) => void take(currentTarget.files?.[0])}
        />
      </label>
      <div role="status">
        {read !== null && issues.length === 0 ? <p>{read.name} was taken in.</p> : null}
        {read !== null && issues.length > 0 ? (
          <>
            <p>{read.name} was not taken in; your crew is as it was.</p>
            <ul class="crew-wrong">
              {issues.slice(0, MOST_SHOWN).map(({ path, message }) => (
                <li key={`${path}${message}`}>{message}</li>
              ))}
              {issues.length > MOST_SHOWN ? <li>and {issues.length - MOST_SHOWN} more</li> : null}
            </ul>
          </>
        ) : null}
      </div>
    </div>
  );
}
