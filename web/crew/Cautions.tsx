import type { Manner } from "../format/manner.ts";
import { sentenceCase } from "../format/words.ts";
import type { Caution } from "./all-faults.ts";
import { farmWords } from "./farm-words.ts";

interface CautionsProps {
  readonly faults: readonly Caution[];
  /** Works were moved by hand just now: then it is said beside them. */
  readonly moved: boolean;
  readonly manner: Manner;
}

/** A fault as a sentence of the page. */
export function faultWords({ text }: Caution, manner: Manner): string {
  return `${sentenceCase(farmWords(text, manner).replace(/\.$/, ""))}.`;
}

/** What speaks against works that are held: it stays in sight as long as they are. */
export function Cautions({ faults, moved, manner }: CautionsProps) {
  if (moved || faults.length === 0) return null;
  return (
    <div class="crew-warned">
      <p>
        <b>Mind what is held:</b>
      </p>
      <ul>
        {faults.map((fault) => (
          <li key={`${fault.fieldId}${fault.op}${fault.code}${fault.text}`}>{faultWords(fault, manner)}</li>
        ))}
      </ul>
    </div>
  );
}
