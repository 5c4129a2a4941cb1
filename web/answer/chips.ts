import type { BoardWarningCode, WindowsAnswer } from "../../model/harvest/index.ts";
import type { Column, WeatherSeries } from "../../model/weather/index.ts";
import { dayClockText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { chosen, type Selection } from "../state/choice.ts";
import { DEMO_INPUTS } from "../state/inputs.ts";
import { choppedStanding } from "../state/routes-of-crop.ts";
import type { Picture } from "../state/state.ts";
import { tellsEnd } from "../states/missing-hours.ts";

export interface Chip {
  readonly text: string;
  readonly caution: boolean;
}

/** Where the chances come from; of the user's own file nobody says that it is a forecast. */
function spreadText({ odds }: WindowsAnswer, { kind }: Picture["source"]): string {
  const one = kind === "upload" ? "One weather file" : "One forecast";
  if (!odds) return `${one}, no spread yet`;
  if (odds.weather === "members") return `Chances from ${odds.members} members of the forecast`;
  return odds.weather === "widened" ? `${one}, spread assumed` : "Weather taken as known";
}

/** True where no hour has any rain value, in the series and in its members. */
export function lacksRain({ hours, members }: WeatherSeries): boolean {
  const none = (column: Column | undefined) => (column ?? []).every((value) => value === null);
  return none(hours.rainMm) && (members ?? []).every(({ rainMm }) => none(rainMm));
}

/** What makes the weather itself doubtful, as it is said beside the answer: no answer is better than its weather. */
const DOUBTS: Readonly<Partial<Record<BoardWarningCode, string>>> = {
  "radiation-above-clear-sky": "Radiation above a clear sky: check clock, place and unit",
  "radiation-in-the-dark": "Radiation with the sun down: check clock and place",
  "zone-far-from-longitude": "The time zone is far from the place's sun: check zone and longitude",
  "temperatures-in-fahrenheit": "Temperatures may be in °F: check the unit",
};

/** Short facts about the weather that change how far the answer can be trusted. */
export function chipsOf({ source, inputs, answer }: Picture, manner: Manner): Chip[] {
  const chips: Chip[] = [{ text: spreadText(answer, source), caution: false }];
  if (source.kind !== "sample" && inputs === DEMO_INPUTS)
    chips.push({ text: "Field and crop are still the invented demonstration's", caution: true });
  if (choppedStanding(inputs.crop) && !inputs.routes["direct-chop"].on)
    chips.push({ text: "Direct chop, common for this crop, is not looked at", caution: true });
  if (lacksRain(source.series)) chips.push({ text: "No rain in this weather: assumed dry", caution: true });
  for (const code of answer.warningCodes) {
    const text = DOUBTS[code];
    if (text !== undefined) chips.push({ text, caution: true });
  }
  if (answer.warningCodes.includes("ends-early") && !tellsEnd(source.series, answer)) {
    const until = dayClockText(answer.usableUntilUtc, manner);
    chips.push({ text: `Only the weather until ${until} could be used`, caution: true });
  }
  chips.push({ text: `Times are the farm's: ${manner.zone}`, caution: false });
  return chips;
}

/** What makes the readings of the cut that is looked at doubtful: the chances beside it rest on them. */
export function readingDoubts({ course, answer }: Picture, selection: Selection | null): Chip[] {
  const told = course?.course.odds?.readings;
  if (!told || course?.optionId !== chosen(answer, selection)?.option.id) return [];
  const texts = [
    told.fewAgree === null ? "" : "Hardly any drawn course agrees with what was read: measure again",
    told.readings.some(({ used }) => !used)
      ? "A reading is questioned and changes nothing yet: confirm it or measure again"
      : "",
  ];
  return texts.flatMap((text) => (text === "" ? [] : [{ text, caution: true }]));
}
