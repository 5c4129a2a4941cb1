import {
  celsiusOf,
  HEAT_TABLE,
  HEATING,
  type HeatLog,
  type HeatStep,
  heatLog,
  PROBE_C,
} from "../../model/harvest/route-details/index.ts";
import { DAY_MS } from "../../model/weather/clock.ts";
import { dayDateText } from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { toPage, unitName } from "../format/units.ts";
import type { Typed } from "../state/inputs.ts";
import { isDay, MOST_PROBES, type Probe } from "./kept.ts";
import { degreesText, readOwn } from "./own.ts";

/** The log of probes in one stack of hay: what is read of it, and what the table says of that. */

type Speech = Pick<Manner, "units" | "locale">;
const HALF_DAY_MS = DAY_MS / 2;

/** A calendar day as the moment that stands for it. */
export function dayMs(day: string): number {
  return Date.parse(`${day}T00:00:00Z`) + HALF_DAY_MS;
}

export function dayWords(day: string): string {
  return dayDateText(dayMs(day), { zone: "UTC" });
}

export function logOf(probes: readonly Probe[]): HeatLog | null {
  return heatLog(probes.map(({ day, tempC }) => ({ atUtcMs: dayMs(day), tempC })));
}

/** "66 °C", "150 °F". */
export function tempText(tempC: number, { units, locale }: Speech): string {
  return `${numberText(toPage(tempC, "temperature", units), 0, { locale })} ${unitName("temperature", units)}`;
}

/** From where a row of the table counts, in words: its first one has no lower end. */
export function fromText(row: HeatStep, manner: Speech): string {
  const next = HEAT_TABLE[HEAT_TABLE.indexOf(row) + 1];
  return row === HEAT_TABLE[0] && next
    ? `under ${tempText(celsiusOf(next.fromF), manner)}`
    : `from ${tempText(celsiusOf(row.fromF), manner)}`;
}

export function heatTable(manner: Speech): readonly (readonly string[])[] {
  return HEAT_TABLE.map((row) => [fromText(row, manner), row.action, row.others]);
}

/** The row that applies to the last day that was probed. */
export function heatRow(log: HeatLog | null): number | null {
  return log === null ? null : HEAT_TABLE.indexOf(log.now);
}

/** Whether nobody opens or moves anything before the fire service was asked. */
export function needsFireService(log: HeatLog | null): boolean {
  return log !== null && (log.now.level === "fire-service" || log.now.level === "fire");
}

/** Where the fire service comes in, of the table's own rows. */
export function fireServiceText(manner: Speech): string {
  const row = HEAT_TABLE.find(({ level }) => level === "fire-service");
  return row === undefined ? "" : tempText(celsiusOf(row.fromF), manner);
}

export function heatSentence(probes: readonly Probe[], manner: Speech): string {
  const log = logOf(probes);
  if (log === null)
    return "Push a probe into the middle of the stack and write down what it reads: daily until it is steady, for six weeks.";
  const days = probes.map(({ day }) => day).toSorted();
  const last = days.at(-1) ?? "";
  const hottest = Math.max(...probes.filter(({ day }) => day === last).map(({ tempC }) => tempC));
  const rise =
    log.risePerDayC === null
      ? ""
      : Math.abs(log.risePerDayC) < 0.5
        ? ", steady"
        : `, ${log.risePerDayC > 0 ? "rising" : "falling"} ${degreesText(Math.abs(log.risePerDayC), manner, 1)} a day`;
  return `${dayWords(last)}: ${tempText(hottest, manner)} at the hottest${rise}. ${log.now.action}`;
}

/** What the whole log has come to: the sum over the warm days, against where quality goes. */
export function degreeDaysSentence(log: HeatLog, manner: Speech): string {
  const perF = 5 / 9;
  const sum = degreesText(log.heatingDegreeDaysC, manner);
  const kept = degreesText(HEATING.keptFDays.value * perF, manner);
  const base = tempText(HEATING.baseC.value, manner);
  return `Hottest so far ${tempText(log.hottestC, manner)}. Days over ${base} add up to ${sum} days; under ${kept} days little quality is lost. ${log.daysProbed} ${log.daysProbed === 1 ? "day" : "days"} probed; others are not counted.`;
}

export interface ProbeErrors {
  readonly day: string | undefined;
  readonly temp: string | undefined;
}

/** Reads a probe as it is typed; what is wrong is said by its field. */
export function readProbe(
  day: string,
  typed: Typed,
  probes: readonly Probe[],
  manner: Speech,
): { readonly errors: ProbeErrors; readonly probe: Probe | null } {
  const temp = readOwn(typed, "temperature", PROBE_C, manner);
  const errors: ProbeErrors = {
    day: !isDay(day)
      ? "Choose the day that it was probed."
      : probes.length >= MOST_PROBES
        ? `Got ${probes.length} readings, must be at most ${MOST_PROBES}: begin a new log.`
        : undefined,
    temp:
      temp.error ?? (temp.value === null ? "Empty; the temperature inside the stack is needed." : undefined),
  };
  const good = errors.day === undefined && errors.temp === undefined && temp.value !== null;
  return { errors, probe: good && temp.value !== null ? { day, tempC: temp.value } : null };
}
