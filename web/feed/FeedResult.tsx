import type { FeedCheckAnswer } from "../../model/feed/index.ts";
import { tablesFor } from "../../model/feed/index.ts";
import { SCROLLS } from "../board/BoardTable.tsx";
import { Fold } from "../fold/Fold.tsx";
import { type Manner, numberText } from "../format/manner.ts";
import { fromPage, unitName } from "../format/units.ts";
import {
  asFedWords,
  dilutionSentence,
  feedSentences,
  prussicSentences,
  refusalWords,
  tableName,
  trialSentence,
  waitSentences,
} from "./feed-words.ts";
import { type Reader, TablesPicture } from "./TablesPicture.tsx";
import "./feed.css";

function Verdicts({
  answer,
  animal,
  manner,
}: {
  readonly answer: FeedCheckAnswer;
  readonly animal: Reader;
  readonly manner: Manner;
}) {
  const tables = tablesFor(animal);
  return (
    <section class="table-scroll" aria-label="What every table says" {...SCROLLS}>
      <table class="board-table">
        <thead>
          <tr>
            <th scope="col">Table</th>
            {answer.feeds.map(({ id, ppm }) => (
              <th scope="col" key={id}>
                {id}, {ppm === null ? "not known" : `${numberText(ppm, 0, manner)} ppm`}
              </th>
            ))}
            <th scope="col">The whole diet</th>
          </tr>
        </thead>
        <tbody>
          {tables.map(({ key, source }) => (
            <tr key={key}>
              <th scope="row" title={source}>
                {tableName(key)}
              </th>
              {answer.feeds.map(({ id, classes }) => (
                <td key={id}>{classes.find(({ table }) => table === key)?.advice ?? "not known"}</td>
              ))}
              <td>{answer.diet?.find(({ table }) => table === key)?.advice ?? "not known"}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <ul class="sources">
        {tables.map(({ key, source }) => (
          <li key={key}>
            {tableName(key)}: {source}
          </li>
        ))}
      </ul>
    </section>
  );
}

/** What a day brings, and the whole diet. */
export function Intake({ answer, manner }: { readonly answer: FeedCheckAnswer; readonly manner: Manner }) {
  const { gNo3N, gPer100Kg, dietPpm, waterGNo3N } = answer.intake;
  if (gNo3N === null || gPer100Kg === null || dietPpm === null)
    return <p>The intake of a day cannot be told before every result can be read.</p>;
  // g for each 100 kg, or for each 100 lb.
  const by100 = fromPage(gPer100Kg, "mass", manner.units);
  const water = waterGNo3N ? `, ${numberText(waterGNo3N, 1, manner)} g of it with the water` : "";
  return (
    <p>
      A day brings {numberText(gNo3N, 1, manner)} g NO3-N{water}: {numberText(by100, 1, manner)} g for each
      100 {unitName("mass", manner.units)} of the animal; the whole diet reads{" "}
      {numberText(dietPpm, 0, manner)} ppm. {trialSentence(answer, manner)}
    </p>
  );
}

/** What a ration comes to: in sentences, beside every published table, and who decides. */
export function FeedResult({
  answer,
  manner,
  animal,
}: {
  readonly answer: FeedCheckAnswer;
  readonly manner: Manner;
  readonly animal: Reader;
}) {
  const prussic = prussicSentences(answer, manner);
  const lines = [...refusalWords(answer), ...prussic.over, ...feedSentences(answer, manner)];
  const marked = answer.feeds.flatMap(({ id, ppm, creditedPpm }) =>
    ppm === null ? [] : [{ id, ppm: creditedPpm ?? ppm }],
  );
  const asFed = asFedWords(answer, manner);
  return (
    <div class="feed-result" aria-live="polite">
      <ul class="feed-lines">
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
      <p class="feed-share">{dilutionSentence(answer, manner)}</p>
      {asFed === "" ? null : <p>That ration, as fed a day: {asFed}.</p>}
      <TablesPicture feeds={marked} animal={animal} sentence={lines.join(" ")} />
      <Intake answer={answer} manner={manner} />
      {[...prussic.under, ...waitSentences(answer)].map((line) => (
        <p key={line}>{line}</p>
      ))}
      {answer.water ? (
        <p>Water: {answer.water.map((one) => `${one.class} (${one.source})`).join("; ")}.</p>
      ) : null}
      <div class="feed-cautions">
        <h4>
          <svg class="triangle" viewBox="0 0 16 14" aria-hidden="true">
            <path d="M8 1 15 13H1z" />
            <path class="mark" d="M8 5v4M8 10.500v1.200" />
          </svg>{" "}
          Who decides: {answer.defer.join(", ")}
        </h4>
        <ul>
          {answer.cautions.map((line) => (
            <li key={line}>{line}</li>
          ))}
        </ul>
      </div>
      <Fold class="board-details" summary="What every table says">
        {() => <Verdicts answer={answer} animal={animal} manner={manner} />}
      </Fold>
    </div>
  );
}
