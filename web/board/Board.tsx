import { useEffect, useMemo, useState } from "preact/hooks";
import type { WindowsAnswer } from "../../model/harvest/answer.ts";
import type { RouteKey } from "../../model/harvest/keys.ts";
import type { WeatherSeries } from "../../model/weather/series.ts";
import { Fold } from "../fold/Fold.tsx";
import type { Manner } from "../format/manner.ts";
import { useWidth } from "../format/use-width.ts";
import { BoardPicture } from "./BoardPicture.tsx";
import { BoardTable } from "./BoardTable.tsx";
import type { Scale } from "./calendar.ts";
import { Legend } from "./Legend.tsx";
import { Pager } from "./Pager.tsx";
import { RowButtons } from "./RowButtons.tsx";
import { boardSentence } from "./sentences.ts";
import { toBoard } from "./to-board.ts";
import "./board.css";
import type { SwathRibbon } from "../worker/ribbons.ts";

export interface BoardProps {
  readonly answer: WindowsAnswer;
  readonly series: WeatherSeries;
  readonly manner: Manner;
  readonly selected: { readonly optionId: string; readonly route: RouteKey | null } | null;
  readonly ribbons: Readonly<Record<string, SwathRibbon>>;
  onSelect(optionId: string, route: RouteKey | null): void;
  /** Told the hours across, so that what lies below can share them; null where the board is too narrow to share. */
  onCalendar?(calendar: Scale | null): void;
}

/** Cut options against the calendar: the page's main picture. */
export function Board({ answer, series, manner, selected, ribbons, onSelect, onCalendar }: BoardProps) {
  const { ref, widthPx } = useWidth<HTMLDivElement>();
  const [unfolded, setUnfolded] = useState<readonly string[]>([]);
  const [fromDay, setFromDay] = useState(0);
  const [told, setTold] = useState<string | null>(null);
  const [stopId, setStopId] = useState<string | null>(null);
  const picture = useMemo(() => {
    if (widthPx === 0) return null;
    return toBoard(answer, series, ribbons, manner, widthPx, { selected, unfolded, fromDay });
  }, [answer, series, ribbons, manner, widthPx, selected, unfolded, fromDay]);

  const shared = picture === null || picture.narrow ? null : picture.scale;
  useEffect(() => {
    onCalendar?.(shared);
    // A new answer brings a new scale; only other hours or another place are news.
  }, [shared?.fromMs, shared?.toMs, shared?.x0, shared?.x1]);

  const rows = picture?.rows ?? [];
  const chosen = rows.find((row) => row.chosen);
  const stop =
    rows.find(({ optionId }) => optionId === stopId) ?? chosen ?? rows.find(({ best }) => best) ?? rows[0];
  const window = chosen?.vessels.find((vessel) => vessel.chosen);
  const line = told ?? (window ? `${window.sentence}.` : (chosen?.sentence ?? ""));
  const unfold = (dayKey: string, expanded: boolean) =>
    setUnfolded(expanded ? unfolded.filter((day) => day !== dayKey) : [...unfolded, dayKey]);
  return (
    <section class="board" aria-labelledby="board-heading">
      <h2 id="board-heading">Cut times and windows</h2>
      <p class="board-sentence">{boardSentence(answer, manner)}</p>
      <div class="board-picture" ref={ref}>
        {picture && (
          <>
            <BoardPicture picture={picture} />
            <ul aria-label="Cut times: up and down between them, left and right between their windows">
              {rows.map((row) => (
                <RowButtons
                  key={row.optionId}
                  row={row}
                  picture={picture}
                  stop={row === stop}
                  onChoose={(route) => onSelect(row.optionId, route)}
                  onTell={setTold}
                  onStop={setStopId}
                  onUnfold={unfold}
                />
              ))}
            </ul>
          </>
        )}
      </div>
      {picture?.pager && <Pager pager={picture.pager} onFrom={setFromDay} />}
      <p class="board-line" aria-live="polite">
        {line}
      </p>
      {picture && (
        <Legend
          routes={picture.routes}
          chances={rows.some(({ vessels }) => vessels.some(({ chance }) => chance !== null))}
        />
      )}
      <Fold class="board-details" summary="Table of the board">
        {() => <BoardTable answer={answer} manner={manner} />}
      </Fold>
    </section>
  );
}
