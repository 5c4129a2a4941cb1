import { HOUR_MS } from "../../model/weather/clock.ts";
import { clockText, fullText, shortFullText, utcMs } from "../format/farm-time.ts";
import { toPage, unitName } from "../format/units.ts";
import type { CourseInput } from "./course-picture.ts";
import { keptShiftMs } from "./kept-line.ts";
import { moistureWbAt } from "./reading.ts";
import { toldMs } from "./told-ms.ts";

/** What has no value at an hour. */
const NONE = "–";

type Column = (i: number, startMs: number) => string;

/** Numbers of a column stand under one another: always the same decimals, as the locale writes them. */
function fixed(locale: string, decimals: number): (value: number | null | undefined) => string {
  const format = new Intl.NumberFormat(locale, {
    minimumFractionDigits: decimals,
    maximumFractionDigits: decimals,
    numberingSystem: "latn",
  });
  return (value) => (value === null || value === undefined ? NONE : format.format(value));
}

function columnsOf(input: CourseInput, brief: boolean): (readonly [string, Column])[] {
  const { course, route, option, manner, odds, kept } = input;
  const { hours, secondOpinions } = course;
  const { units, locale } = manner;
  const oneDecimal = fixed(locale, 1);
  const water = unitName("rain", units);
  const waterText = fixed(locale, units === "metric" || brief ? 2 : 3);
  const pct = (wb: number | null | undefined) =>
    oneDecimal(wb === null || wb === undefined ? null : wb * 100);
  const depth = (mm: number | undefined) => waterText(mm === undefined ? null : toPage(mm, "rain", units));
  const cutMs = utcMs(option.courseCutUtc ?? hours.startUtc[0] ?? course.usableUntilUtc);
  const shiftMs = kept ? keptShiftMs(kept, cutMs) : 0;
  const passesIn = (startMs: number) =>
    (route?.operations ?? []).filter(({ atUtc }) => {
      const ms = utcMs(atUtc);
      return ms >= startMs && ms < startMs + HOUR_MS;
    });
  const opinions = secondOpinions.map(({ name, hours: own }): readonly [string, Column] => {
    const byMs = new Map(own.startUtc.map((start, i) => [utcMs(start), own.moistureWb[i]]));
    return [`${name} %`, (_, startMs) => pct(byMs.get(startMs))];
  });
  const keptColumn: readonly [string, Column] = [
    "Kept cut %",
    (_, startMs) => pct(kept ? moistureWbAt(kept.course, startMs + HOUR_MS - shiftMs) : null),
  ];
  const told = course.odds?.readings ?? null;
  const readingColumns: (readonly [string, Column])[] = [
    ["Course before the reading, %", (i) => pct(told?.beforeWb[i])],
    [
      "Reading %",
      (_, startMs) =>
        (told?.readings ?? [])
          .filter(({ atUtc }) => utcMs(atUtc) >= startMs && utcMs(atUtc) < startMs + HOUR_MS)
          .map(({ observedWb: { low, high } }) => `${oneDecimal(low * 100)} to ${oneDecimal(high * 100)}`)
          .join(", "),
    ],
  ];
  const operationColumn: readonly [string, Column] = [
    "Operation",
    (_, startMs) =>
      passesIn(startMs)
        .map(({ kind, atUtc }) => (brief ? kind : `${kind} ${clockText(toldMs(atUtc), manner)}`))
        .join(", "),
  ];
  return [
    ["Hour", (_, startMs) => (brief ? shortFullText : fullText)(startMs, manner)],
    ["Moisture %", (i) => pct(hours.moistureWb[i])],
    ...(odds
      ? (brief ? BRIEF_BANDS : BANDS).map((p): readonly [string, Column] => [
          `${p.slice(1)} in 100 below, %`,
          (i) => pct(odds[p][i]),
        ])
      : []),
    ...(told ? readingColumns : []),
    ...(kept ? [keptColumn] : []),
    ["Leaf %", (i) => pct(hours.leafMoistureWb[i])],
    ["Stem %", (i) => pct(hours.stemMoistureWb[i])],
    [`Free water ${water}`, (i) => depth(hours.freeWaterMm[i])],
    ["Air floor %", (i) => pct(hours.equilibriumWb[i])],
    [`Rain ${water}`, (i) => depth(hours.rainMm[i] ?? 0)],
    ...(brief && (route?.operations ?? []).length === 0 ? [] : [operationColumn]),
    ...opinions,
  ];
}

const BANDS = ["p10", "p25", "p50", "p75", "p90"] as const;
/** On paper the course above shows the others. */
const BRIEF_BANDS = ["p10", "p50", "p90"] as const;

/** Hours between two rows of the brief table. */
const BRIEF_H = 3;

/** The table of the course: heads and one row of text an hour; brief, every third and those in which something happens. */
export function courseRows(
  input: CourseInput,
  brief = false,
): {
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
} {
  const columns = columnsOf(input, brief);
  const { startUtc, rainMm } = input.course.hours;
  const works = (input.route?.operations ?? []).map(({ atUtc }) => utcMs(atUtc));
  const told = (input.course.odds?.readings?.readings ?? []).map(({ atUtc }) => utcMs(atUtc));
  const happens = (i: number, startMs: number) =>
    (rainMm[i] ?? 0) > 0 || [...works, ...told].some((ms) => ms >= startMs && ms < startMs + HOUR_MS);
  return {
    heads: columns.map(([head]) => head),
    rows: startUtc.flatMap((start, i) =>
      brief && i % BRIEF_H !== 0 && !happens(i, utcMs(start))
        ? []
        : [columns.map(([, text]) => text(i, utcMs(start)))],
    ),
  };
}
