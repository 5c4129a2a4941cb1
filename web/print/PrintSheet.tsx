import { useEffect } from "preact/hooks";
import { clockText, dayDateText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { unitName } from "../format/units.ts";
import type { Picture } from "../state/state.ts";
import { spanInWords, weatherAge } from "../states/age.ts";
import { leverWords } from "./lever-words.ts";
import { SETS_MARGINS, setMargins } from "./paper.ts";
import "./print.css";

/** Where the weather is from, and how old it is. */
export function weatherLine({ source }: Picture, nowMs: number, manner: Manner): string {
  const { series } = source;
  const { hours } = weatherAge(series, nowMs);
  const age = hours === null ? "" : `, ${spanInWords(hours, manner)} old`;
  if (source.kind === "sample")
    return `Invented demonstration farm and weather: ${source.title.toLowerCase()}`;
  if (series.origin === "forecast") return `Forecast ${series.provider ?? source.name}${age}`;
  return `Own weather: ${source.name}${age}`;
}

export interface PrintProps {
  readonly picture: Picture;
  readonly nowMs: number;
  readonly manner: Manner;
}

/** Head and foot of every page: which field, when by the farm's clock, in which weather. Else once, above the answer. */
export function PrintHead({ picture, nowMs, manner }: PrintProps) {
  const field = picture.inputs.fieldName.trim() || "The field";
  const { year } = yearOf(nowMs, manner.zone);
  const when = `${dayDateText(nowMs, manner)} ${year} ${clockText(nowMs, manner)}, farm time (${manner.zone})`;
  const weather = weatherLine(picture, nowMs, manner);
  useEffect(() => setMargins(`Swathclock, ${field}`, when, weather), [field, when, weather]);
  if (SETS_MARGINS) return null;
  return (
    <p class="print-only print-head">
      <span>
        <strong>Swathclock</strong> {field}. {weather}.
      </span>
      <span>{when}</span>
    </p>
  );
}

function yearOf(ms: number, zone: string): { readonly year: string } {
  return { year: new Intl.DateTimeFormat("en", { year: "numeric", timeZone: zone }).format(ms) };
}

function Line({
  before,
  after,
  wide,
}: {
  readonly before: string;
  readonly after?: string;
  readonly wide?: boolean;
}) {
  return (
    <span class="write">
      {before} <span class={wide ? "write-line wide" : "write-line"} /> {after}
    </span>
  );
}

/** On paper alone: what the levers said, as words, and room to write what is seen in the field. */
export function PrintSheet({ picture, manner }: Omit<PrintProps, "nowMs">) {
  const { inputs, request } = picture;
  return (
    <section class="print-only print-sheet">
      <div>
        <h2>Worked out for</h2>
        <dl>
          {leverWords(inputs, request, manner).map(([name, words]) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd>{words}</dd>
            </div>
          ))}
        </dl>
      </div>
      <div class="print-room">
        <h2>Seen in the field</h2>
        {[1, 2, 3].map((row) => (
          <p key={row}>
            <Line before="Moisture" after="%" />
            <Line before="at" />
            <Line before="by" wide />
            <Line before="Swath width" after={unitName("width", manner.units)} />
            <Line before="Ground" wide />
          </p>
        ))}
      </div>
    </section>
  );
}
