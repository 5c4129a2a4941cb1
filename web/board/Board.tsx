import { useEffect, useLayoutEffect, useMemo, useRef, useState } from "preact/hooks";
import type { CropKey } from "../../model/drying/keys.ts";
import type { WindowsAnswer } from "../../model/harvest/answer.ts";
import type { RouteKey } from "../../model/harvest/keys.ts";
import type { WeatherSeries } from "../../model/weather/series.ts";
import { Fold } from "../fold/Fold.tsx";
import { otherYear } from "../format/farm-time.ts";
import { type Manner, yearSaid } from "../format/manner.ts";
import { useWidth } from "../format/use-width.ts";
import { unitsKept } from "../format/words.ts";
import { usePaper } from "../print/use-paper.ts";
import type { Selection } from "../state/choice.ts";
import type { SwathRibbon } from "../worker/ribbons.ts";
import { BoardPicture } from "./BoardPicture.tsx";
import { BoardTable } from "./BoardTable.tsx";
import type { Scale } from "./calendar.ts";
import { Hair } from "./Hair.tsx";
import { keysOf } from "./keys.ts";
import { Legend } from "./Legend.tsx";
import { Pager } from "./Pager.tsx";
import { RainButtons } from "./RainButtons.tsx";
import { RowButtons } from "./RowButtons.tsx";
import { listening, type Press, RAIN_STOP, stopsOf } from "./stops.ts";
import type { Telling } from "./telling.ts";
import { type BoardOptions, toBoard } from "./to-board.ts";
import { usePointedHour } from "./use-pointed-hour.ts";
import "./board.css";

export interface BoardProps {
  readonly answer: WindowsAnswer;
  readonly series: WeatherSeries;
  readonly manner: Manner;
  readonly selected: Selection | null;
  readonly ribbons: Readonly<Record<string, SwathRibbon>>;
  /** The moment from which cuts are offered; absent = the weather's first hour. */
  readonly nowUtc?: string | undefined;
  /** The cut hours that were asked for. */
  readonly cutHours?: readonly number[] | undefined;
  /** The crop, for cautions that go by it. */
  readonly crop?: CropKey | undefined;
  /** The hour that is looked at, UTC ms, here or in what shares the hours; null = none. */
  readonly hourMs?: number | null;
  /** The forecast is old: its numbers carry a question mark; expired = no cut is told as an answer. */
  readonly age?: BoardOptions["age"];
  onSelect(optionId: string, route: RouteKey | null, laterUtc: string | null): void;
  /** Told the hours across, so that what lies below can share them; null where the board is too narrow to share. */
  onCalendar?(calendar: Scale | null): void;
  /** Told the hour under the pointer or the focus, UTC ms, null when there is none any more. */
  onHour?(ms: number | null): void;
}

/** The board is as wide as what the page holds, px; 0 where there is no page. */
function widthOfPage(): number {
  const page = document.querySelector("main");
  if (page === null) return 0;
  const { paddingLeft, paddingRight } = getComputedStyle(page);
  return Math.round(page.clientWidth - Number.parseFloat(paddingLeft) - Number.parseFloat(paddingRight));
}

const NOTHING: Telling = { sentence: "", more: [] };

/** Cut options against the calendar: the page's main picture. */
export function Board({
  answer,
  series,
  manner: withYear,
  selected,
  ribbons,
  nowUtc,
  cutHours,
  crop,
  hourMs,
  age,
  onSelect,
  onCalendar,
  onHour,
}: BoardProps) {
  const { ref, widthPx } = useWidth<HTMLDivElement>(widthOfPage);
  const paper = usePaper();
  const manner = useMemo(() => yearSaid(withYear), [withYear]);
  const [unfolded, setUnfolded] = useState<readonly string[]>([]);
  const [fromDay, setFromDay] = useState(0);
  const [larger, setLarger] = useState(false);
  const [told, setTold] = useState<Telling | null>(null);
  const [stopId, setStopId] = useState<string | null>(null);
  const [ownHourMs, setOwnHourMs] = useState<number | null>(null);
  const summary = useRef<HTMLElement>(null);
  const stops = useRef<HTMLUListElement>(null);
  const [tabled, setTabled] = useState(false);
  const picture = useMemo(() => {
    if (widthPx === 0) return null;
    return toBoard(answer, series, ribbons, manner, widthPx, {
      selected,
      unfolded,
      fromDay,
      larger,
      ...(nowUtc ? { nowUtc } : {}),
      ...(cutHours ? { cutHours } : {}),
      crop,
      age,
      paper,
    });
  }, [answer, series, ribbons, manner, widthPx, selected, unfolded, fromDay, larger, nowUtc, age, paper]);
  const doubted = age !== undefined;
  // Drawn once for each picture: the hair line and the line below change with every move of the pointer.
  const drawn = useMemo(
    () => picture && <BoardPicture picture={picture} doubted={doubted} />,
    [picture, doubted],
  );

  // The chosen window stays in view, whatever is chosen and whenever the days are drawn larger.
  const chosenDay = picture?.pager?.chosenDay ?? null;
  const daysInView = picture?.pager?.days ?? 0;
  useEffect(() => {
    if (!larger || chosenDay === null) return;
    if (chosenDay < fromDay || chosenDay >= fromDay + daysInView) setFromDay(Math.max(0, chosenDay - 2));
  }, [larger, chosenDay, daysInView]);

  const shared = picture === null || picture.narrow ? null : picture.scale;
  // Before the frame, and before the sheet is laid out: the course stands under the same calendar.
  useLayoutEffect(() => {
    onCalendar?.(shared);
    // A new answer brings a new scale; only other hours or another place are news.
  }, [shared?.fromMs, shared?.toMs, shared?.x0, shared?.x1]);

  const rows = picture?.rows ?? [];
  const chosen = rows.find((row) => row.chosen);
  const stop =
    rows.find(({ optionId }) => optionId === stopId) ?? chosen ?? rows.find(({ best }) => best) ?? rows[0];
  const rainStops = stopId === RAIN_STOP || stop === undefined;
  const window = chosen?.vessels.find((vessel) => vessel.chosen);
  const line: Telling =
    told ??
    (age === "expired"
      ? NOTHING
      : window
        ? { ...window, sentence: `${window.sentence}.` }
        : (chosen ?? NOTHING));
  const press = (pressed: Press) => {
    if (pressed.kind === "choose") onSelect(pressed.optionId, pressed.route, pressed.laterUtc);
    if (pressed.kind !== "unfold") return;
    const { dayKey, expanded } = pressed;
    setUnfolded(expanded ? unfolded.filter((day) => day !== dayKey) : [...unfolded, dayKey]);
  };
  const hour = (ms: number | null) => {
    if (ms === ownHourMs) return;
    setOwnHourMs(ms);
    onHour?.(ms);
  };
  usePointedHour(ref, picture?.scale ?? null, hour);
  const openTable = () => {
    setTabled(true);
    summary.current?.focus();
  };
  const year = otherYear(series.hours.startUtc[0] ?? answer.usableUntilUtc, withYear);
  const leave = () => {
    const { current: list } = stops;
    // What follows the board's one stop, as Tab finds it.
    const next = [...(list?.closest(".board")?.querySelectorAll<HTMLElement>("button, summary") ?? [])].find(
      (one) => !list?.contains(one) && !one.matches(":disabled") && one.checkVisibility(),
    );
    (next ?? summary.current)?.focus();
  };
  // Wherever in the board it is pressed: the hour that was looked at is let go.
  const letGo = ({ key }: KeyboardEvent) => {
    if (key !== "Escape") return;
    setOwnHourMs(null);
    onHour?.(null);
  };
  const shownHourMs = hourMs === undefined ? ownHourMs : hourMs;
  const heard = listening(() => (picture ? stopsOf(picture) : new Map()), {
    onTell: setTold,
    onHour: hour,
    onPress: press,
  });
  // Drawn once for each picture and stop: what is told changes with every move of the pointer.
  const buttons = useMemo(
    () =>
      picture && (
        <>
          <RainButtons picture={picture} stop={rainStops} />
          {rows.map((row) => (
            <RowButtons
              key={row.optionId}
              row={row}
              picture={picture}
              stop={!rainStops && row === stop}
              doubted={doubted}
            />
          ))}
        </>
      ),
    [picture, rainStops, stop, doubted],
  );
  return (
    <section class="board" aria-labelledby="board-heading" onKeyDown={letGo}>
      <h2 id="board-heading">
        Cut times and windows{" "}
        <span class="board-zone">
          {year === null ? "" : `in ${year}, `}times of {manner.zone}
        </span>
      </h2>
      <div class="board-picture" ref={ref}>
        {picture && (
          <>
            {drawn}
            {shownHourMs !== null && (
              <Hair hourMs={shownHourMs} scale={picture.scale} heightPx={picture.heightPx} clock={manner} />
            )}
            <ul
              ref={stops}
              aria-label="Cut times: up and down between them, left and right between their windows, T for the table"
              onKeyDown={keysOf(setStopId, openTable, leave)}
              {...heard}
            >
              {buttons}
            </ul>
          </>
        )}
      </div>
      {picture?.pager && <Pager pager={picture.pager} onFrom={setFromDay} onLarger={setLarger} />}
      {picture && picture.missing.length > 0 && (
        <ul class="board-missing" aria-label="Missing hours">
          {picture.missing.map(({ fromMs, sentence }) => (
            <li key={`${fromMs} ${sentence}`}>{unitsKept(sentence)}</li>
          ))}
        </ul>
      )}
      <div class="board-line">
        <p>{unitsKept(line.sentence)}</p>
        {line.more.length > 0 && <p class="more">{unitsKept(line.more.join(" "))}</p>}
      </div>
      {picture && (
        <Legend
          routes={picture.routes}
          shades={rows.flatMap(({ shades }) => shades)}
          waiting={answer.odds === undefined}
          rain={picture.rainOdds?.key ?? null}
          chances={rows.some(({ vessels }) => vessels.some(({ chance }) => chance !== null))}
        />
      )}
      {picture && <p class="board-sentence">{unitsKept(picture.sentence)}</p>}
      <Fold
        class="board-details"
        summary="Table of the board"
        summaryRef={summary}
        opened={{ open: tabled, onOpen: setTabled }}
      >
        {() => <BoardTable answer={answer} manner={manner} />}
      </Fold>
    </section>
  );
}
