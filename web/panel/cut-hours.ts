import type { CutOptionAnswer, WindowsAnswer } from "../../model/harvest/index.ts";
import { localDayKey } from "../../model/weather/clock.ts";
import { leftOutHours, leftOutWords } from "../board/left-out.ts";
import { clockText, dayText, utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";

/** The hours at which the chosen row's day can be cut, as the choices of a lever; null for a crop that stands or lies. */
export interface CutHours {
  readonly label: string;
  /** Why the day lacks an hour that was asked for; null where it lacks none. */
  readonly leftOut: string | null;
  /** Option id of the chosen row. */
  readonly value: string;
  readonly choices: readonly (readonly [string, string])[];
}

export function cutHoursOfDay(
  answer: Pick<WindowsAnswer, "options" | "warnings" | "warningCodes" | "usableUntilUtc">,
  chosen: CutOptionAnswer,
  manner: Manner,
  asked: readonly number[] = [],
  fromMs = Number.NEGATIVE_INFINITY,
): CutHours | null {
  const { options } = answer;
  if (chosen.cutUtc === null || chosen.made) return null;
  const { cutUtc } = chosen;
  const day = localDayKey(utcMs(cutUtc), manner.zone);
  const choices = options.flatMap((option) =>
    option.cutUtc !== null && !option.made && localDayKey(utcMs(option.cutUtc), manner.zone) === day
      ? [[option.id, clockText(option.cutUtc, manner)] as const]
      : [],
  );
  const hours = leftOutHours(answer, day, asked, fromMs, manner.zone);
  const leftOut = hours && leftOutWords(hours, manner);
  return { label: `Cut hour, ${dayText(cutUtc, manner)}`, leftOut, value: chosen.id, choices };
}
