import {
  CLASS_WORDS,
  type FeedCheckAnswer,
  NITRATE_TABLES,
  type NitrateTable,
  tablesFor,
  type Verdict,
} from "../../model/feed/index.ts";
import { Intake } from "../feed/FeedResult.tsx";
import { FIRST_SAMPLING, type SamplingInputs } from "../feed/feed-inputs.ts";
import {
  asFedWords,
  dilutionSentence,
  feedSentences,
  prussicSentences,
  refusalWords,
  tableName,
  waitSentences,
} from "../feed/feed-words.ts";
import { planOf, planSentence } from "../feed/SamplingSheet.tsx";
import { Bar, FeedHatch, MOST_PPM, type Reader, TablesLegend } from "../feed/TablesPicture.tsx";
import { type Manner, numberText } from "../format/manner.ts";
import { listText, sentenceCase, unitsKept } from "../format/words.ts";
import { leverWords } from "../print/lever-words.ts";
import { headAndFoot } from "../print/PrintHead.tsx";
import type { SheetProps } from "./BriefRoutes.tsx";
import { cautionLines, deferrals, gateLines, priceLines, sourceLines } from "./brief-lines.ts";
import { animalWords } from "./feed-brief.ts";

const BAR_PX = 150;
const barX = (ppm: number) => (BAR_PX * Math.min(MOST_PPM, ppm)) / MOST_PPM;

/** With no animal told the stricter column is drawn. */
const PREGNANT_COW: Reader = { class: "beef-cow", pregnant: true };

/** Tables from the one that restricts first to the one that does last: their spread is a staircase. */
const byEdge = (tables: readonly NitrateTable[]) =>
  tables.toSorted(
    (a, b) =>
      (a.bands[0]?.upTo ?? 0) - (b.bands[0]?.upTo ?? 0) || (a.bands[1]?.upTo ?? 0) - (b.bands[1]?.upTo ?? 0),
  );

/** A table's verdict where many stand under each other: "not restricted" without saying by which. */
function shortAdvice(verdicts: readonly Verdict[], key: string): string {
  const advice = verdicts.find(({ table }) => table === key)?.advice ?? "not known";
  return advice === CLASS_WORDS["no-restriction"] ? "not restricted" : advice;
}

/** Every table as a bar with where each feed lies, what it says of each, and of the whole diet. */
function Tables({
  answer,
  animal,
  manner,
}: {
  readonly answer: FeedCheckAnswer | null;
  readonly animal: Reader;
  readonly manner: Manner;
}) {
  const tables = byEdge(tablesFor(animal));
  const feeds = answer?.feeds.filter(({ ppm }) => ppm !== null) ?? [];
  const edge = (ppm: number) => numberText(ppm, 0, manner);
  // Without a feed there is room for two halves beside each other.
  const half = Math.ceil(tables.length / 2);
  const parts = feeds.length > 0 ? [tables] : [tables.slice(0, half), tables.slice(half)];
  const edges = tables.map(({ bands }) => bands[0]?.upTo ?? 0);
  return (
    <>
      <p>
        Where published tables begin to restrict runs from {edge(Math.min(...edges))} to{" "}
        {edge(Math.max(...edges))} ppm NO3-N of dry matter; the strictest computes.
      </p>
      <div class={parts.length > 1 ? "brief-columns" : undefined}>
        {parts.map((part) => (
          <table key={part[0]?.key} class="brief-tables">
            <thead>
              <tr>
                <th scope="col">Table</th>
                <th scope="col">0 to {edge(MOST_PPM)} ppm</th>
                <th scope="col">Restricts from</th>
                {feeds.map(({ id, ppm, creditedPpm }, i) => (
                  <th scope="col" key={id}>
                    {feeds.length > 1 ? `${i + 1} ` : ""}
                    {id}, {edge(creditedPpm ?? ppm ?? 0)} ppm
                  </th>
                ))}
                {answer?.diet ? <th scope="col">The whole diet</th> : null}
              </tr>
            </thead>
            <tbody>
              {part.map((table) => (
                <tr key={table.key}>
                  <th scope="row">{sentenceCase(tableName(table.key))}</th>
                  <td>
                    <svg class="brief-bar" width={BAR_PX} height={15} aria-hidden="true">
                      {table.key === tables[0]?.key ? <FeedHatch /> : null}
                      <Bar table={table} y={0} animal={animal} xOf={barX} />
                      {feeds.map(({ id, ppm, creditedPpm }) => {
                        const d = `M${barX(creditedPpm ?? ppm ?? 0)} -1V16`;
                        return (
                          <g key={id}>
                            <path class="halo" d={d} />
                            <path class="tick" d={d} />
                          </g>
                        );
                      })}
                    </svg>
                  </td>
                  <td>{edge(table.bands[0]?.upTo ?? 0)}</td>
                  {feeds.map(({ id, classes }) => (
                    <td key={id}>{shortAdvice(classes, table.key)}</td>
                  ))}
                  {answer?.diet ? <td>{shortAdvice(answer.diet, table.key)}</td> : null}
                </tr>
              ))}
            </tbody>
          </table>
        ))}
      </div>
      <TablesLegend animal={animal} />
    </>
  );
}

function Told({ feed, manner }: Pick<SheetProps, "feed" | "manner">) {
  if (feed.kind !== "told")
    return (
      <>
        <p class="brief-lead">
          {feed.kind === "none"
            ? "No result of a laboratory was entered. Until there is one nobody can say whether it may be fed."
            : "The feed check has fields that need mending: nothing of it is printed."}
        </p>
        {[1, 2].map((row) => (
          <p key={row} class="brief-write">
            {["Feed", "Nitrate", "as NO3, NO3-N or KNO3", "ppm or %", "of dry matter or as fed"].map(
              (what) => (
                <span key={what}>{what}</span>
              ),
            )}
          </p>
        ))}
        <Tables answer={null} animal={PREGNANT_COW} manner={manner} />
      </>
    );
  const { answer, request, invented } = feed;
  const weights = asFedWords(answer, manner);
  const prussic = prussicSentences(answer, manner);
  return (
    <>
      <p>
        For a {animalWords(request, manner)}.
        {invented.length > 0
          ? ` Invented as an example, not measured: ${listText(invented)}. What it says of the diet is not this herd's.`
          : ""}
      </p>
      <div class="brief-lead">
        {[...refusalWords(answer), ...prussic.over, ...feedSentences(answer, manner)].map((line) => (
          <p key={line}>{line}</p>
        ))}
        <p>{dilutionSentence(answer, manner)}</p>
      </div>
      {weights === "" ? null : <p>That ration, as fed a day: {weights}.</p>}
      <Intake answer={answer} manner={manner} />
      {[...prussic.under, ...waitSentences(answer)].map((line) => (
        <p key={line}>{line}</p>
      ))}
      {answer.water ? (
        <p>Water: {answer.water.map((one) => `${one.class} (${one.source})`).join("; ")}.</p>
      ) : null}
      <Tables answer={answer} animal={request.animal} manner={manner} />
    </>
  );
}

/** What is ticked and what is not, in form and in words. */
function GateList({ picture }: Pick<SheetProps, "picture">) {
  return (
    <ul class="brief-gate">
      {gateLines(picture).map(({ ask, ticked }) => (
        <li key={ask}>
          <svg width="12" height="12" aria-hidden="true">
            <path d={`M1 1H11V11H1z${ticked ? "M3 6 5.500 8.500 9.500 3" : ""}`} />
          </svg>
          <span>
            {ask} <strong>{ticked ? "Ticked." : "Open."}</strong>
          </span>
        </li>
      ))}
    </ul>
  );
}

function Samples({
  sampling,
  manner,
}: {
  readonly sampling: SamplingInputs | null;
  readonly manner: Manner;
}) {
  // The counts of the example are nobody's: without the user's own the least of a lot is told.
  const plan = planOf(sampling ?? { ...FIRST_SAMPLING, bales: "", tonnes: "" }, manner);
  return (
    <>
      <p>
        {sampling === null ? "No counts were entered; at least: " : ""}
        {planSentence(plan)}
      </p>
      <ul>
        {plan.steps.map((step) => (
          <li key={step}>{step}</li>
        ))}
      </ul>
    </>
  );
}

/** Second sheet: may it be fed, what is settled and what is not, samples, cautions, who decides, what was assumed, sources. */
export function BriefFeed({
  picture,
  side,
  feed,
  sampling,
  manner,
  nowMs,
}: SheetProps & { readonly sampling: SamplingInputs | null }) {
  const cautions = cautionLines(side, feed, picture.inputs.crop);
  const read = feed.kind === "told" ? tablesFor(feed.request.animal) : NITRATE_TABLES;
  const tables = read.map(({ source }) => source);
  const [, when, weather] = headAndFoot({ picture, nowMs, manner });
  return (
    <>
      <h2>May it be fed? A screen, never a clearance</h2>
      <Told feed={feed} manner={manner} />
      <div class="brief-columns">
        <div>
          <h2>Before cutting</h2>
          <GateList picture={picture} />
          <h2>Samples to take</h2>
          <Samples sampling={sampling} manner={manner} />
        </div>
        <div>
          <h2>Cautions</h2>
          <ul>
            {cautions.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
          <h2>Who decides what this brief cannot</h2>
          <ul>
            {deferrals(picture).map(([who, what]) => (
              <li key={who}>
                <strong>{who}:</strong> {what}.
              </li>
            ))}
          </ul>
        </div>
      </div>
      <h2>Worked out from</h2>
      <div class="brief-small">
        <p>
          Made {when}. {weather}.{" "}
          {leverWords(picture.inputs, picture.request, manner)
            .map(([name, words]) => `${name}: ${words}`)
            .join("; ")}
          .
        </p>
        {priceLines(picture, manner).map((line) => (
          <p key={line}>{unitsKept(line)}</p>
        ))}
        <p>{picture.answer.assumptions.join(" ")}</p>
      </div>
      <h2>Sources</h2>
      <ul class="brief-sources">
        {sourceLines(side, picture, tables).map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}
