import type { WindowsAnswer } from "../../model/harvest/index.ts";
import type { Column, WeatherSeries } from "../../model/weather/index.ts";
import { dayClockText, fullText, otherYear } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { DEMO_INPUTS } from "../state/inputs.ts";
import { choppedStanding } from "../state/routes-of-crop.ts";
import type { Picture } from "../state/state.ts";

export interface Chip {
  readonly text: string;
  readonly caution: boolean;
}

/** Where the chances come from. */
function spreadText({ odds }: WindowsAnswer): string {
  if (!odds) return "One forecast, no spread yet";
  if (odds.weather === "members") return `Chances from ${odds.members} members of the forecast`;
  return odds.weather === "widened" ? "One forecast, spread assumed" : "Weather taken as known";
}

/** True where no hour has any rain value, in the series and in its members. */
export function lacksRain({ hours, members }: WeatherSeries): boolean {
  const none = (column: Column | undefined) => (column ?? []).every((value) => value === null);
  return none(hours.rainMm) && (members ?? []).every(({ rainMm }) => none(rainMm));
}

/** How a doubt about the weather begins or ends, and how it is said beside the answer. */
const DOUBTS: readonly (readonly [RegExp, string])[] = [
  [/^(Radiation above .*?)(, most at .*|\. Check .*)$/s, "$1: check clock, place and unit"],
  [/^(The time zone \S+) .*$/s, "$1 is far from the place's sun: check zone and longitude"],
  [/^.*Is it in °F\?$/s, "Temperatures may be in °F: check the unit"],
];

/** What makes the weather itself doubtful: no answer is better than it. */
function doubtsOf({ warnings }: WindowsAnswer): string[] {
  const told = warnings.flatMap((text) =>
    DOUBTS.filter(([of]) => of.test(text)).map(([of, short]) => text.replace(of, short)),
  );
  return [...new Set(told)];
}

/** Short facts about the weather that change how far the answer can be trusted. */
export function chipsOf({ source, inputs, answer }: Picture, manner: Manner): Chip[] {
  const chips: Chip[] = [{ text: spreadText(answer), caution: false }];
  if (source.kind !== "sample" && inputs === DEMO_INPUTS)
    chips.push({ text: "Field and crop are still the invented demonstration's", caution: true });
  if (choppedStanding(inputs.crop) && !inputs.routes["direct-chop"].on)
    chips.push({ text: "Direct chop, common for this crop, is not looked at", caution: true });
  if (lacksRain(source.series)) chips.push({ text: "No rain in this weather: assumed dry", caution: true });
  for (const text of doubtsOf(answer)) chips.push({ text, caution: true });
  const cutShort = answer.warnings.some((warning) => warning.startsWith("The weather is used until"));
  if (cutShort) {
    const { usableUntilUtc } = answer;
    const until =
      otherYear(usableUntilUtc, manner) === null
        ? dayClockText(usableUntilUtc, manner)
        : fullText(usableUntilUtc, manner);
    chips.push({ text: `Only the weather until ${until} could be used`, caution: true });
  }
  chips.push({ text: `Times are the farm's: ${manner.zone}`, caution: false });
  return chips;
}
