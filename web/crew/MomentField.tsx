import { useId, useState } from "preact/hooks";
import { ErrorText } from "../panel/Field.tsx";
import { timeField, timeOfField } from "../reading/read-reading.ts";

interface MomentProps {
  readonly label: string;
  readonly utc: string | null;
  /** The farm's zone. */
  readonly zone: string;
  readonly error?: string | undefined;
  /** Null where the field was emptied. */
  readonly onUtc: (utc: string | null) => void;
}

export const utcText = (ms: number) => `${new Date(ms).toISOString().slice(0, 19)}Z`;

/** A day and an hour on the farm's clock, whatever the browser's zone. */
export function MomentField({ label, utc, zone, error, onUtc }: MomentProps) {
  const id = useId();
  const [skipped, setSkipped] = useState<string | null>(null);
  const wrong = skipped === null ? error : `Got ${skipped}: the farm's clock skips that hour.`;
  return (
    <div class={wrong ? "field wrong" : "field"}>
      <label for={id}>{label}</label>
      <input
        id={id}
        type="datetime-local"
        value={skipped ?? (utc === null ? "" : timeField(Date.parse(utc), zone))}
        aria-invalid={wrong ? "true" : undefined}
        aria-describedby={wrong ? `${id}-error` : undefined}
        onInput={({ currentTarget: { value } }) => {
          const ms = value === "" ? null : timeOfField(value, zone);
          setSkipped(value !== "" && ms === null ? value : null);
          if (value === "") onUtc(null);
          else if (ms !== null) onUtc(utcText(ms));
        }}
      />
      {wrong ? <ErrorText id={`${id}-error`} text={wrong} /> : null}
    </div>
  );
}
