import type { CutOptionAnswer, WindowsAnswer } from "../../model/harvest/index.ts";
import { localDayKey } from "../../model/weather/clock.ts";
import { clockText, dayText, utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";

/** The hours at which the chosen row's day can be cut, as the choices of a lever; null for a crop that stands. */
export interface CutHours {
  readonly label: string;
  /** Option id of the chosen row. */
  readonly value: string;
  readonly choices: readonly (readonly [string, string])[];
}

export function cutHoursOfDay(
  { options }: Pick<WindowsAnswer, "options">,
  chosen: CutOptionAnswer,
  manner: Manner,
): CutHours | null {
  if (chosen.cutUtc === null) return null;
  const { cutUtc } = chosen;
  const day = localDayKey(utcMs(cutUtc), manner.zone);
  const choices = options.flatMap((option) =>
    option.cutUtc !== null && localDayKey(utcMs(option.cutUtc), manner.zone) === day
      ? [[option.id, clockText(option.cutUtc, manner)] as const]
      : [],
  );
  return { label: `Cut hour, ${dayText(cutUtc, manner)}`, value: chosen.id, choices };
}
