import { useEffect, useMemo, useState } from "preact/hooks";
import type { ScoreWithConfidence } from "../../model/odds/confidence.ts";
import type { ChanceScores, MoistureScores } from "../../model/odds/record.ts";
import { type RecordAnswer, recordAnswer } from "../../model/odds/record-answer.ts";
import type { FoldsProps } from "../app/Folds.tsx";
import { type Manner, numberText } from "../format/manner.ts";
import { ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import { type Met, onMet, readMet } from "../reading/met.ts";
import { Switch } from "../switch/Switch.tsx";
import { RELIABILITY_KEY, ReliabilityPicture } from "./ReliabilityPicture.tsx";
import { RECORDS, type RecordKey, recordSentence } from "./record-sentence.ts";
import { reliabilityDots } from "./reliability.ts";
import { type ScoreRow, ScoreTable } from "./ScoreTable.tsx";
import { useBookRecord } from "./use-book-record.ts";
import "./odds.css";

function routeName(route: string | null): string {
  return route !== null && route in ROUTE_LABELS
    ? sentenceCase(ROUTE_LABELS[route as keyof typeof ROUTE_LABELS])
    : "Any";
}

const TOO_FEW = "too few to say";

function scoreText(one: ScoreWithConfidence, decimals: number, manner: Manner, times = 1): string {
  if (!one.enough) return TOO_FEW;
  const [mean, p5, p95] = [one.mean, one.p5, one.p95].map((v) => numberText(v * times, decimals, manner));
  return `${mean} (${p5} to ${p95})`;
}

type Group = Pick<MoistureScores, "route" | "leadH">;

function groupName({ route, leadH: [from, to] }: Group): string {
  return `${routeName(route)}, ${from} to ${to} h ahead`;
}

/** What begins each row of a table of scores. */
const GROUP_HEADS = ["Route", "Hours ahead", "Days"] as const;

function groupRow({ route, leadH: [from, to] }: Group, days: number, scores: readonly string[]): ScoreRow {
  return { key: `${route} ${from}`, cells: [routeName(route), `${from} to ${to}`, String(days), ...scores] };
}

function MoistureTable({
  rows,
  manner,
}: {
  readonly rows: readonly MoistureScores[];
  readonly manner: Manner;
}) {
  return (
    <ScoreTable
      label="Moisture, forecast against reading"
      caption="Forecast less reading, points of moisture; 9 in 10 confidence by redrawn days, of the share in the band at least Wilson's interval with a day as one trial"
      heads={[...GROUP_HEADS, "Bias", "Mean error", "CRPS", "In the 8-in-10 band, %"]}
      rows={rows.map(({ bias, absoluteError, crps, inside80, ...group }) =>
        groupRow(
          group,
          bias.days,
          bias.enough
            ? [
                ...[bias, absoluteError, crps].map((one) => scoreText(one, 1, manner, 100)),
                scoreText(inside80, 0, manner, 100),
              ]
            : [TOO_FEW],
        ),
      )}
    />
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
  const part = (value: number | null) => (value === null ? "–" : numberText(value, 2, manner));
  return (
    <ScoreTable
      label="Chances, told against come"
      caption={`${CHANCE_OF[of]}. Brier score: 0 is perfect, 0.25 is a coin. It is reliability less resolution, plus uncertainty, plus what lies within the five bins of told chance`}
      heads={[...GROUP_HEADS, "Brier score", "Reliability", "Resolution", "Uncertainty", "Within", "Skill"]}
      rows={rows.map(({ brier, parts, ...group }) =>
        groupRow(
          group,
          brier.days,
          parts === null
            ? [TOO_FEW]
            : [
                scoreText(brier, 2, manner),
                ...[
                  parts.reliability,
                  parts.resolution,
                  parts.uncertainty,
                  parts.withinBins,
                  parts.skill,
                ].map(part),
              ],
        ),
      )}
    />
  );
}

/** The dots of the pictures in numbers. */
function ReliabilityTable({
  rows,
  manner,
}: {
  readonly rows: readonly ChanceScores[];
  readonly manner: Manner;
}) {
  const pct = (share: number) => numberText(100 * share, 0, manner);
  return (
    <ScoreTable
      label="Told against come, in numbers"
      caption="The dots of the pictures, per cent"
      heads={[
        "Route",
        "Hours ahead",
        "Told",
        "Came",
        "Times",
        "Days",
        "If the chance is right, 9 in 10 within",
      ]}
      rows={rows.flatMap(({ route, leadH: [from, to], bins }) =>
        reliabilityDots(bins ?? []).map(({ told, came, count, days, right: [low, high] }) => ({
          key: `${route} ${from} ${told}`,
          cells: [
            routeName(route),
            `${from} to ${to}`,
            pct(told),
            pct(came),
            String(count),
            String(days),
            `${pct(low)} to ${pct(high)}`,
          ],
        })),
      )}
    />
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
  const drawn = chances.filter(({ bins }) => bins !== null);
  return (
    <>
      <p class="odds-says">{recordSentence(counts, of)}</p>
      {drawn.length === 0 ? null : (
        <>
          <p>{RELIABILITY_KEY}</p>
          <div class="reliability-row">
            {drawn.map((one) => (
              <ReliabilityPicture
                key={groupName(one)}
                bins={one.bins ?? []}
                days={one.brier.days}
                name={groupName(one)}
              />
            ))}
          </div>
          <ReliabilityTable rows={drawn} manner={manner} />
        </>
      )}
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

/** Says of how many forecasts the lead is counted from when they were had. */
function withHad(record: RecordAnswer, met: readonly Met[]): RecordAnswer {
  const had = met.filter((one) => one.had === true).length;
  const which = had === met.length ? "Of these" : `Of ${had} of these ${met.length}`;
  const text = `${which} the service told no time of issue: their hours ahead are counted from when the forecast was had, which is later.`;
  return had === 0 ? record : { ...record, notes: [text, ...record.notes] };
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
        <Scores record={withHad(own.value, met)} of="device" manner={manner} />
      ) : (
        <p role="alert">{own.issues.map(({ message }) => message).join("; ")}</p>
      )}
    </div>
  );
}
