import type { CropKey } from "../../model/drying/keys.ts";
import type { WindowsAnswer } from "../../model/harvest/answer.ts";
import type { RouteKey } from "../../model/harvest/keys.ts";
import { localDayKey, startOfLocalDay } from "../../model/weather/clock.ts";
import type { WeatherSeries } from "../../model/weather/series.ts";
import { type FarmDay, farmDays, utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { unitName } from "../format/units.ts";
import type { Selection } from "../state/choice.ts";
import { TOO_OLD } from "../states/age.ts";
import type { SwathRibbon } from "../worker/ribbons.ts";
import {
  type DayColumn,
  dayColumns,
  nightSpans,
  RAIN_WORDS_PX,
  type RainBar,
  rainBars,
  rainInWords,
  rainUntil,
  type Scale,
  type Span,
  scaleOf,
  seriesSpan,
} from "./calendar.ts";
import { groupOptions } from "./groups.ts";
import { leftOutHours, leftOutWords } from "./left-out.ts";
import { type MissingSpan, missingSpans } from "./missing.ts";
import { rainOddsKey, rainOddsOf, rainOddsTitle, rainTitle } from "./rain-odds.ts";
import { type BoardRow, doneOf, leftOutRow, routesShown, toRow } from "./rows.ts";
import { boardSentence } from "./sentences.ts";
import { type WindowChoice, windowChoices } from "./window-choices.ts";

export interface BoardOptions {
  readonly selected?: Selection | null;
  /** Local days (YYYY-MM-DD) whose other cut hours are unfolded. */
  readonly unfolded?: readonly string[];
  /** Where not all days can be drawn at their usual width: these few, larger, from this one on; absent = all of them. */
  readonly fromDay?: number;
  readonly larger?: boolean;
  /** What is past is not drawn: the calendar begins with the farm's day of this moment. Absent = the weather's first. */
  readonly nowUtc?: string;
  /** The cut hours that were asked for, so that a day says why it lacks one. */
  readonly cutHours?: readonly number[];
  /** The crop, for cautions that go by it; absent = those of every crop. */
  readonly crop?: CropKey | undefined;
  /** The forecast is old, or too old to decide by: then no cut is called the best. Absent = it is neither. */
  readonly age?: "doubted" | "expired" | undefined;
  /** Drawn for paper, where no finger has to meet a row: board and course share one sheet. */
  readonly paper?: boolean;
}

export interface BoardPager {
  readonly fromDay: number;
  readonly days: number;
  readonly allDays: number;
  /** Days are drawn at their usual width, a few at a time. */
  readonly larger: boolean;
  /** Days that would be in view at their usual width. */
  readonly largerDays: number;
  /** The day of the chosen window, else of its cut; null where nothing is chosen. */
  readonly chosenDay: number | null;
}

/** Everything that the board draws, in px of a picture as wide as its container. */
export interface BoardPicture {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly narrow: boolean;
  readonly rowPx: number;
  /** Room for an hour of cutting: "09:00", "12:30 pm". */
  readonly hourPx: number;
  readonly scale: Scale;
  readonly header: {
    readonly dayY: number;
    /** Below it the days of the month, where the names have no room for them. */
    readonly dateY: number;
    readonly axisY: number;
    readonly rainPx: number;
    readonly wordsY: number;
    /** The line of the chances of rain: kept free until they are known, so that nothing moves when they come. */
    readonly oddsY: number;
    readonly footY: number;
  };
  readonly days: readonly DayColumn[];
  readonly nights: readonly Span[];
  readonly missing: readonly MissingSpan[];
  readonly rain: readonly RainBar[];
  readonly rows: readonly BoardRow[];
  /** The windows of the chosen row once more, under it, where they stand closer than a thumb is wide. */
  readonly choices: readonly WindowChoice[];
  readonly routes: readonly { readonly route: RouteKey; readonly label: string }[];
  readonly sentence: string;
  /** What the amounts of rain are, beside them: "Forecast's rain", with the unit where the days have room for numbers alone. */
  readonly rainTitle: string;
  /** Where the days have room for numbers alone; null where each amount carries its unit. */
  readonly rainUnit: string | null;
  /** What the chances of rain are of, beside them and in the key; null while there are none. */
  readonly rainOdds: { readonly title: string; readonly key: string } | null;
  /** The rain of the days in view. */
  readonly rainSentence: string;
  /** Null where all days are in view at their usual width. */
  readonly pager: BoardPager | null;
}

/** Below this width rows are tall and the right column moves under the label. */
const NARROW_BELOW_PX = 680;
/**
 * From this width on the course lies under the board beside the levers: the right column is as wide as they are with
 * their gap, so that both pictures end at the same hour.
 */
const BESIDE_FROM_PX = 953;
/** Usual width of a day, and the least at which it can still be read: between the two all days are drawn closer. */
const USUAL_DAY_PX = { narrow: 49, wide: 70 } as const;
const LEAST_DAY_PX = { narrow: 17, wide: 34 } as const;
/** Height of a row on paper, px. */
const PAPER_ROW_PX = 37;
/** A line of the days' names, px. */
const DATE_LINE_PX = 16;
/** The line of the chances of rain, px. */
const ODDS_LINE_PX = 17;

/** What a character of a tall row's label takes at most, and what stands beside the label, px: as measured. */
const LABEL = { characterPx: 7.1, besidePx: 12 } as const;

/** Room for the longest of the labels that say when a window ends: with its date where a weekday alone is not enough. */
function labelPx(answer: WindowsAnswer, manner: Manner): number {
  const longest = Math.max(0, ...answer.options.map((option) => doneOf(option, manner).doneShort.length));
  return Math.ceil(LABEL.besidePx + longest * LABEL.characterPx);
}

function layoutOf(widthPx: number, answer: WindowsAnswer, manner: Manner) {
  const narrow = widthPx < NARROW_BELOW_PX;
  const { hour12 } = manner;
  return narrow
    ? {
        narrow,
        gutterPx: Math.max(hour12 ? 120 : 92, labelPx(answer, manner)),
        rightPx: 6,
        rowPx: 64,
        rainPx: 22,
      }
    : {
        narrow,
        gutterPx: hour12 ? 184 : 166,
        rightPx: widthPx >= BESIDE_FROM_PX ? 244 : hour12 ? 146 : 130,
        rowPx: 44,
        rainPx: 24,
      };
}

function withoutBest(answer: WindowsAnswer): WindowsAnswer {
  return { ...answer, best: { ...answer.best, overall: null } };
}

/** Which of the days the chosen route's window opens on, else the cut lies on. */
function chosenDayOf(
  answer: WindowsAnswer,
  chosen: NonNullable<BoardOptions["selected"]> | null,
  days: readonly FarmDay[],
): number | null {
  const option = answer.options.find(({ id }) => id === chosen?.optionId);
  const route = option?.routes.find((one) => one.route === chosen?.route);
  const later = route?.windows.find(({ startUtc }) => startUtc === chosen?.windowUtc);
  const moment = (later ?? route?.windows[0])?.startUtc ?? option?.cutUtc;
  if (moment === undefined || moment === null) return null;
  const at = days.findIndex(({ endMs }) => utcMs(moment) < endMs);
  return at < 0 ? null : at;
}

/**
 * The board as a picture: cut options down, the farm's calendar across.
 *
 * @param ribbons courses by option id; an option without one has its cut mark and windows only
 * @param widthPx width of the container, 280 px or more (less is drawn as 280)
 */
export function toBoard(
  answer: WindowsAnswer,
  series: WeatherSeries,
  ribbons: Readonly<Record<string, SwathRibbon>>,
  manner: Manner,
  widthPx: number,
  opts: BoardOptions = {},
): BoardPicture {
  const width = Math.max(280, widthPx);
  const { zone } = manner;
  const { narrow, gutterPx, rightPx, rainPx, ...layout } = layoutOf(width, answer, manner);
  const rowPx = opts.paper === true ? PAPER_ROW_PX : layout.rowPx;
  const hourPx = manner.hour12 ? 74 : 56;
  const span = seriesSpan(series);
  const { toMs } = span;
  const nowMs = opts.nowUtc === undefined ? span.fromMs : utcMs(opts.nowUtc);
  const fromMs = Math.max(span.fromMs, startOfLocalDay(zone, localDayKey(nowMs, zone)));
  const allDays = farmDays(fromMs, toMs, zone);
  const plotPx = width - gutterPx - rightPx;
  const kind = narrow ? "narrow" : "wide";
  const largerDays = Math.max(2, Math.floor(plotPx / USUAL_DAY_PX[kind]));
  const closerDays = Math.max(2, Math.floor(plotPx / LEAST_DAY_PX[kind]));
  const larger = opts.larger === true || allDays.length <= largerDays;
  const fit = larger ? largerDays : closerDays;
  const fromDay = Math.min(Math.max(0, opts.fromDay ?? 0), Math.max(0, allDays.length - fit));
  const days = allDays.slice(fromDay, fromDay + fit);
  const scale = scaleOf(
    days[0]?.startMs ?? fromMs,
    days[days.length - 1]?.endMs ?? toMs,
    gutterPx,
    width - rightPx,
  );
  const untilMs = Math.min(toMs, utcMs(answer.usableUntilUtc));
  const columns = dayColumns(series, days, scale, manner, rainOddsOf(answer), untilMs);
  const alone = !columns.some(({ x0, x1 }) => x1 - x0 >= RAIN_WORDS_PX);
  const chances = columns.some(({ oddsWords }) => oddsWords !== "");
  const dated = columns.some(({ date }) => date !== "");
  const dayPx = 26 + (dated ? DATE_LINE_PX : 0);
  const header = {
    dayY: 18,
    dateY: 18 + DATE_LINE_PX,
    axisY: dayPx,
    rainPx,
    wordsY: dayPx + rainPx + 16,
    oddsY: dayPx + rainPx + 16 + ODDS_LINE_PX,
    footY: dayPx + rainPx + 24 + ODDS_LINE_PX,
  };

  const chosen = opts.selected ?? null;
  const groups = groupOptions(answer, zone, chosen?.optionId ?? null);
  const context = {
    answer: opts.age === "expired" ? withoutBest(answer) : answer,
    scale,
    manner,
    ribbons,
    chosen,
    narrow,
    widthPx: width,
    crop: opts.crop,
    doubted: opts.age !== undefined,
  };
  const rows: BoardRow[] = [];
  let choices: readonly WindowChoice[] = [];
  let footY = header.footY;
  const add = (
    ...[option, kind, unfold, leftOut = null]: [
      Parameters<typeof toRow>[0],
      BoardRow["kind"],
      Parameters<typeof toRow>[4],
      (string | null)?,
    ]
  ) => {
    const row = toRow(option, kind, footY, footY + rowPx, unfold, context);
    rows.push(leftOut === null ? row : { ...row, more: [leftOut, ...row.more] });
    footY += rowPx;
    if (!row.chosen || !narrow || opts.paper === true) return;
    const under = windowChoices(option, row.vessels, footY, width, manner);
    choices = under.choices;
    footY += under.heightPx;
  };
  const paged = fromDay + fit < allDays.length;
  const lastCutMs = paged ? (days[days.length - 1]?.startMs ?? scale.toMs) : scale.toMs;
  const inView = (option: Parameters<typeof toRow>[0]) => {
    if (option.cutUtc === null) return true;
    const cutMs = utcMs(option.cutUtc);
    // Where days are paged, a cut on the last day in view waits for the page that shows its windows too.
    if (cutMs >= lastCutMs) return false;
    if (cutMs >= scale.fromMs) return true;
    return option.routes.some(
      ({ windows: [first] }) => first !== undefined && utcMs(first.endUtc) > scale.fromMs,
    );
  };
  for (const option of groups.made) add(option, "made", null);
  for (const { dayKey, best, others } of groups.days) {
    if (!inView(best) && !others.some(inView)) continue;
    const expanded =
      (opts.unfolded ?? []).includes(dayKey) || others.some(({ id }) => id === chosen?.optionId);
    const leftOut = leftOutHours(answer, dayKey, opts.cutHours ?? [], nowMs, zone);
    const count = others.length + (leftOut?.moments.length ?? 0);
    add(best, "day", { dayKey, count, expanded }, leftOut && leftOutWords(leftOut, manner));
    if (!expanded) continue;
    for (const option of others) add(option, "folded", null);
    for (const ms of leftOut?.moments ?? []) {
      rows.push(leftOutRow(ms, leftOut?.takes ?? "", footY, footY + rowPx, context));
      footY += rowPx;
    }
  }
  for (const option of groups.standing) add(option, "standing", null);

  const nights = nightSpans(series, scale, zone);
  const isDark = (ms: number) => {
    const x = scale.x(ms);
    return nights.some(({ x0, x1 }) => x >= x0 && x <= x1);
  };
  return {
    widthPx: width,
    heightPx: footY + 2,
    narrow,
    rowPx,
    hourPx,
    scale,
    header,
    days: columns,
    nights,
    missing: missingSpans(series, answer, scale, manner, isDark),
    rain: rainBars(rainUntil(series, untilMs), days, scale, rainPx),
    rows,
    choices,
    routes: routesShown(answer),
    sentence: opts.age === "expired" ? TOO_OLD : boardSentence(answer, manner),
    rainTitle: rainTitle(chances, series, narrow, alone, manner),
    rainUnit: alone ? unitName("rain", manner.units) : null,
    rainOdds: chances
      ? {
          title: rainOddsTitle(alone, manner),
          key: rainOddsKey(
            series,
            columns.map(({ oddsWords }) => oddsWords),
            manner,
          ),
        }
      : null,
    rainSentence: rainInWords(columns),
    pager:
      allDays.length > largerDays
        ? {
            fromDay,
            days: Math.min(fit, allDays.length),
            allDays: allDays.length,
            larger,
            largerDays,
            chosenDay: chosenDayOf(answer, chosen, allDays),
          }
        : null,
  };
}
