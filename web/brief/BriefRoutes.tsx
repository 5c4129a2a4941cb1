import { useMemo } from "preact/hooks";
import { toAnswerSentence } from "../answer/sentence.ts";
import { BoardPicture } from "../board/BoardPicture.tsx";
import { Legend } from "../board/Legend.tsx";
import { LIMIT_WORDS } from "../board/reasons.ts";
import { toBoard } from "../board/to-board.ts";
import { routeCaution } from "../cautions/cautions.ts";
import { dayClockText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { listText, ROUTE_LABELS, unitsKept } from "../format/words.ts";
import { waitingSentence } from "../routes/AgainstWaiting.tsx";
import { moneyPer } from "../routes/money-words.ts";
import { RoutesPicture } from "../routes/RoutesPicture.tsx";
import { ColumnHeads, GroupBodies, Notes, tableGroups } from "../routes/RoutesTable.tsx";
import type { RouteRow, SideBySide } from "../routes/route-rows.ts";
import { turnSentence } from "../routes/turn-words.ts";
import { boardFromUtc, boardNowUtc } from "../state/board-from.ts";
import type { Choice } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";
import { weatherAge } from "../states/age.ts";
import { bestDays } from "./best-days.ts";
import { gateLines, hazardLines, questionOf } from "./brief-lines.ts";
import type { FeedBrief } from "./feed-brief.ts";

export interface SheetProps {
  readonly picture: Picture;
  readonly side: SideBySide;
  readonly feed: FeedBrief;
  readonly manner: Manner;
  readonly nowMs: number;
}

/** Turning points that are told; the others move further. */
const TURNS_TOLD = 3;
/** Pictures are drawn for this width, px, and brought to the sheet's as a whole. */
const DRAWN_PX = 900;

function Answer({
  picture,
  choice,
  manner,
  nowMs,
}: Pick<SheetProps, "picture" | "manner" | "nowMs"> & { readonly choice: Choice | null }) {
  const { answer, inputs, source } = picture;
  if (weatherAge(source.series, nowMs).level === "expired")
    return <h1>This forecast is too old to decide by.</h1>;
  const sentence = toAnswerSentence(
    answer,
    choice && { optionId: choice.option.id, route: choice.route?.route ?? null },
    {
      fieldName: inputs.fieldName.trim() || "the field",
      manner,
      fromUtc: boardFromUtc(picture),
    },
  );
  return (
    <>
      <h1>{sentence.headline}</h1>
      <p class="brief-promise">{unitsKept(sentence.promise)}</p>
      <p>{unitsKept(`${sentence.why} ${sentence.runnerUp}`.trim())}</p>
    </>
  );
}

function Cautions({ picture, side }: Pick<SheetProps, "picture" | "side">) {
  const first = side.rows[0];
  const gate = gateLines(picture);
  const open = gate.filter(({ ticked }) => !ticked).length;
  const caution = first && routeCaution(first.route, picture.inputs.crop);
  return (
    <p class="brief-box">
      {caution ? (
        <>
          <strong>{caution.title}:</strong> {caution.orders.join(" ")}{" "}
        </>
      ) : null}
      <strong>Before cutting:</strong>{" "}
      {open === 0
        ? `all ${gate.length} questions ticked as settled.`
        : `${open} of ${gate.length} questions are open (second sheet). Settle them first.`}
    </p>
  );
}

function BoardOf({
  picture,
  choice,
  manner,
}: Pick<SheetProps, "picture" | "manner"> & { readonly choice: Choice | null }) {
  const { board, shown, days } = useMemo(() => {
    const { source, ribbons } = picture;
    const nowUtc = boardNowUtc(picture);
    const selected = choice && { optionId: choice.option.id, route: choice.route?.route ?? null };
    const best = bestDays(picture.answer, choice?.option ?? null, manner);
    const drawn = toBoard(best.answer, source.series, ribbons, manner, DRAWN_PX, {
      selected,
      ...(nowUtc === null ? {} : { nowUtc }),
    });
    return { ...best, board: drawn };
  }, [picture, choice, manner]);
  const { rows } = board;
  return (
    <>
      <h2>When to cut{shown < days ? `: the best ${shown} of ${days} days` : ""}</h2>
      <div class="brief-pictures">
        <BoardPicture picture={board} />
      </div>
      <Legend
        routes={board.routes}
        shades={rows.flatMap(({ shades }) => shades)}
        waiting={picture.answer.odds === undefined}
        rain={board.rainOdds?.key ?? null}
        chances={rows.some(({ vessels }) => vessels.some(({ chance }) => chance !== null))}
      />
    </>
  );
}

/** The table of the routes in two halves beside each other: losses, then work and money. */
function Tables({
  rows,
  currency,
  manner,
}: {
  readonly rows: readonly RouteRow[];
  readonly currency: string;
  readonly manner: Manner;
}) {
  const groups = tableGroups(rows, currency, manner);
  const parts = [groups.slice(0, 1), groups.slice(1)];
  return (
    <div class="brief-columns">
      {parts.map((part) => (
        <table key={part[0]?.title} class="side-table">
          <ColumnHeads rows={rows} />
          <GroupBodies groups={part} rows={rows} />
        </table>
      ))}
    </div>
  );
}

/** First sheet: the question, the answer, the board, the routes side by side and what would change their order. */
export function BriefRoutes({
  picture,
  side,
  choice,
  feed,
  manner,
  nowMs,
}: SheetProps & { readonly choice: Choice | null }) {
  const { rows, sentence, turns, without } = side;
  const currency = picture.inputs.texts.currency.text.trim();
  const cutUtc = choice?.option.cutUtc ?? null;
  const [first] = rows;
  const turnLines = turns.flatMap((turn) => turnSentence(turn, manner) ?? []).slice(0, TURNS_TOLD);
  const hazards = hazardLines(picture.answer, manner);
  return (
    <>
      <p class="brief-question">{unitsKept(questionOf(picture, feed, manner))}</p>
      <Answer picture={picture} choice={choice} manner={manner} nowMs={nowMs} />
      <Cautions picture={picture} side={side} />
      <BoardOf picture={picture} choice={choice} manner={manner} />
      <h2>Routes side by side{cutUtc === null ? "" : `, cut ${dayClockText(cutUtc, manner)}`}</h2>
      <p class="brief-lead">{sentence === "" ? "No route brings this cut in." : unitsKept(sentence)}</p>
      {first && first.valuePerHa !== null ? (
        <p>
          Worth most after losses and work: {ROUTE_LABELS[first.route]},{" "}
          {moneyPer(first.valuePerHa, "perHa", currency, manner)}.
          {first.note === null ? "" : ` ${first.note}`}
        </p>
      ) : null}
      {rows.length > 0 ? (
        <>
          <RoutesPicture rows={rows} manner={manner} sentence={sentence} drawnPx={DRAWN_PX} />
          <Tables rows={rows} currency={currency} manner={manner} />
          <Notes rows={rows} />
        </>
      ) : null}
      {without.length > 0 ? (
        <p>
          Not brought in by this cut:{" "}
          {listText(
            without.map(
              ({ route, limitedBy }) =>
                `${ROUTE_LABELS[route]}${limitedBy === null ? "" : ` (${LIMIT_WORDS[limitedBy]})`}`,
            ),
          )}
          .
        </p>
      ) : null}
      <div class="brief-columns">
        <div>
          <h2>What would change the first place</h2>
          {turnLines.length > 0 ? (
            <ul>
              {turnLines.map((line) => (
                <li key={line}>{unitsKept(line)}</li>
              ))}
            </ul>
          ) : (
            <p>
              {rows.length > 1
                ? "No single price, rate, yield or store, moved up to four times, changes it."
                : "There is no second route to compare with."}
            </p>
          )}
          {picture.request.leave === undefined ? (
            <p>Salvage or leave it: no grain and no regrowth was entered to wait for.</p>
          ) : (
            <p>Salvage or leave it: {waitingSentence(picture, manner)}</p>
          )}
        </div>
        <div>
          <h2>Hazards by the weather</h2>
          {hazards.length > 0 ? (
            <ul>
              {hazards.map((line) => (
                <li key={line}>{unitsKept(line)}</li>
              ))}
            </ul>
          ) : (
            <p>No rain, frost or soft ground in this weather sets a wait. That clears nothing.</p>
          )}
        </div>
      </div>
    </>
  );
}
