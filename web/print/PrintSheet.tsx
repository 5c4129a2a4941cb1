import type { Manner } from "../format/manner.ts";
import { unitName } from "../format/units.ts";
import type { Picture } from "../state/state.ts";
import { leverWords } from "./lever-words.ts";

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

export interface PrintSheetProps {
  readonly picture: Picture;
  readonly manner: Manner;
}

/** On paper alone: what the levers said, as words, and room to write what is seen in the field. */
export function PrintSheet({ picture, manner }: PrintSheetProps) {
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
