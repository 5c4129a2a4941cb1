import type { OffSpan } from "../../model/crew/index.ts";
import { MomentField, utcText } from "./MomentField.tsx";

interface OffProps {
  /** "Broken down or booked elsewhere". */
  readonly label: string;
  readonly spans: readonly OffSpan[] | undefined;
  readonly zone: string;
  /** Where a new span begins. */
  readonly nowUtc: string;
  readonly error: (i: number) => string | undefined;
  readonly onSpans: (spans: readonly OffSpan[] | undefined) => void;
}

const A_DAY_MS = 86_400_000;

/** When a machine or a person is away. */
export function OffTimes({ label, spans = [], zone, nowUtc, error, onSpans }: OffProps) {
  const put = (i: number, part: Partial<OffSpan>) =>
    onSpans(spans.map((span, j) => (i === j ? { ...span, ...part } : span)));
  const add = () => onSpans([...spans, { fromUtc: nowUtc, toUtc: utcText(Date.parse(nowUtc) + A_DAY_MS) }]);
  return (
    <div class="crew-off">
      {spans.map((span, i) => (
        <div class="crew-off-span" key={`${i}`}>
          <MomentField
            label={`${label} from`}
            utc={span.fromUtc}
            zone={zone}
            onUtc={(fromUtc) => fromUtc && put(i, { fromUtc })}
          />
          <MomentField
            label="until"
            utc={span.toUtc}
            zone={zone}
            error={error(i)}
            onUtc={(toUtc) => toUtc && put(i, { toUtc })}
          />
          <button
            type="button"
            class="aid"
            onClick={() => onSpans(spans.length > 1 ? spans.filter((_, j) => j !== i) : undefined)}
          >
            There again
          </button>
        </div>
      ))}
      <button type="button" class="aid" onClick={add}>
        {label} ...
      </button>
    </div>
  );
}
