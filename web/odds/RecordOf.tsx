import { useEffect, useMemo, useState } from "preact/hooks";
import type { ScoreWithConfidence } from "../../model/odds/confidence.ts";
import type { ChanceScores, MoistureScores } from "../../model/odds/record.ts";
import { type RecordAnswer, recordAnswer } from "../../model/odds/record-answer.ts";
import type { FoldsProps } from "../app/Folds.tsx";
import { SCROLLS } from "../board/BoardTable.tsx";
import { type Manner, numberText } from "../format/manner.ts";
import { ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import { type Met, onMet, readMet } from "../reading/met.ts";
import { Switch } from "../switch/Switch.tsx";
import { ReliabilityPicture } from "./ReliabilityPicture.tsx";
import { RECORDS, type RecordKey, recordSentence } from "./record-sentence.ts";
import { useBookRecord } from "./use-book-record.ts";
import "./odds.css";

function routeName(route: string | null): string {
  return route !== null && route in ROUTE_LABELS
    ? sentenceCase(ROUTE_LABELS[route as keyof typeof ROUTE_LABELS])
    : "Any";
}

function scoreText(one: ScoreWithConfidence, decimals: number, manner: Manner, times = 1): string {
  if (!one.enough) return "too few to say";
  const [mean, p5, p95] = [one.mean, one.p5, one.p95].map((v) => numberText(v * times, decimals, manner));
  return `${mean} (${p5} to ${p95})`;
}

function Head({ texts }: { readonly texts: readonly string[] }) {
  return (
    <thead>
      <tr>
        {texts.map((text) => (
          <th key={text} scope="col">
            {text}
          </th>
        ))}
      </tr>
    </thead>
  );
}

function Group({
  route,
  leadH,
  days,
}: {
  readonly route: string | null;
  readonly leadH: readonly [number, number];
  readonly days: number;
}) {
  return (
    <>
      <th scope="row">{routeName(route)}</th>
      <td>
        {leadH[0]} to {leadH[1]}
      </td>
      <td>{days}</td>
    </>
  );
}

function MoistureTable({
  rows,
  manner,
}: {
  readonly rows: readonly MoistureScores[];
  readonly manner: Manner;
}) {
  return (
    <section class="odds-scroll" aria-label="Moisture, forecast against reading" {...SCROLLS}>
      <table>
        <caption>Forecast less reading, points of moisture; 9 in 10 confidence by days</caption>
        <Head
          texts={["Route", "Hours ahead", "Days", "Bias", "Mean error", "CRPS", "In the 8-in-10 band, %"]}
        />
        <tbody>
          {rows.map(({ route, leadH, bias, absoluteError, crps, inside80 }) => (
            <tr key={`${route} ${leadH[0]}`}>
              <Group route={route} leadH={leadH} days={bias.days} />
              {bias.enough ? (
                [
                  scoreText(bias, 1, manner, 100),
                  scoreText(absoluteError, 1, manner, 100),
                  scoreText(crps, 1, manner, 100),
                  scoreText(inside80, 0, manner, 100),
                ].map((text, i) => <td key={i}>{text}</td>)
              ) : (
                <td colSpan={4}>too few to say</td>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

const CHANCE_OF: Readonly<Record<RecordKey, string>> = {
  device: "Chance that the swath has dried to the route's band by the hour of the reading",
  book: "Chance of the route's first window, as told, by its end",
};

function ChanceTable({
  rows,
  of,
  manner,
}: {
  readonly rows: readonly ChanceScores[];
  readonly of: RecordKey;
  readonly manner: Manner;
}) {
  const part = (value: number | null | undefined) => (value == null ? "–" : numberText(value, 2, manner));
  return (
    <section class="odds-scroll" aria-label="Chances, told against come" {...SCROLLS}>
      <table>
        <caption>{CHANCE_OF[of]}. Brier score: 0 is perfect, 0.25 is a coin</caption>
        <Head
          texts={[
            "Route",
            "Hours ahead",
            "Days",
            "Brier score",
            "Reliability",
            "Resolution",
            "Uncertainty",
            "Skill",
          ]}
        />
        <tbody>
          {rows.map(({ route, leadH, brier, parts }) => (
            <tr key={`${route} ${leadH[0]}`}>
              <Group route={route} leadH={leadH} days={brier.days} />
              {parts === null ? (
                <td colSpan={5}>too few to say</td>
              ) : (
                <>
                  <td>{scoreText(brier, 2, manner)}</td>
                  <td>{part(parts.reliability)}</td>
                  <td>{part(parts.resolution)}</td>
                  <td>{part(parts.uncertainty)}</td>
                  <td>{part(parts.skill)}</td>
                </>
              )}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

/** The scores of one record: a sentence and a picture first, the tables under them. */
function Scores({
  record,
  of,
  manner,
}: {
  readonly record: RecordAnswer;
  readonly of: RecordKey;
  readonly manner: Manner;
}) {
  const { counts, moisture, chances, notes } = record;
  return (
    <>
      <p class="odds-says">{recordSentence(counts, of)}</p>
      <div class="reliability-row">
        {chances.flatMap(({ route, leadH, bins }) =>
          bins === null
            ? []
            : [
                <ReliabilityPicture
                  key={`${route} ${leadH[0]}`}
                  bins={bins}
                  name={`${routeName(route)}, ${leadH[0]} to ${leadH[1]} h ahead`}
                />,
              ],
        )}
      </div>
      {moisture.length === 0 ? null : <MoistureTable rows={moisture} manner={manner} />}
      {chances.length === 0 ? null : <ChanceTable rows={chances} of={of} manner={manner} />}
      {notes.map((text) => (
        <p key={text}>{text}</p>
      ))}
    </>
  );
}

const SAID = {
  book: { label: "The book", of: "Every forecast and reading of the book, whichever device kept it" },
  device: { label: "This device", of: "The readings that were taken on this device" },
} as const;

function isEmpty({ counts }: RecordAnswer): boolean {
  return counts.moisture + counts.chances === 0;
}

function recordOf(met: readonly Met[], timeZone: string) {
  return recordAnswer({ timeZone, moisture: met, chances: met.flatMap(({ chances = [] }) => chances) });
}

/**
 * How the forecasts that met a reading did: by the book where it can be read, else by what this device kept. Says which of
 * both; where the book has nothing yet and the device has, the device's comes first.
 */
export function RecordOf({ manner }: Pick<FoldsProps, "manner">) {
  const book = useBookRecord();
  const [wanted, setWanted] = useState<RecordKey | null>(null);
  const [met, setMet] = useState(readMet);
  useEffect(() => onMet(() => setMet(readMet())), []);
  const own = useMemo(() => recordOf(met, manner.zone), [met, manner.zone]);
  if (book.kind === "asked")
    return (
      <p class="odds-fold" role="status">
        The book's record is being worked out ...
      </p>
    );
  const usual = book.kind === "there" && (met.length === 0 || !isEmpty(book.record)) ? "book" : "device";
  const of = book.kind === "there" ? (wanted ?? usual) : "device";
  return (
    <div class="odds-fold record">
      {book.kind === "there" ? (
        <Switch legend="Whose record" value={of} choices={RECORDS} said={SAID} onChoice={setWanted} />
      ) : (
        <p role="status">{book.why} This is the record of this device.</p>
      )}
      {book.kind === "there" && of === "book" ? (
        <Scores record={book.record} of="book" manner={manner} />
      ) : own.ok ? (
        <Scores record={own.value} of="device" manner={manner} />
      ) : (
        <p role="alert">{own.issues.map(({ message }) => message).join("; ")}</p>
      )}
    </div>
  );
}
