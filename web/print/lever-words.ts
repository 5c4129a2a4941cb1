import { CROP_CATALOGUE } from "../../model/drying/index.ts";
import type { Conditioning } from "../../model/drying/keys.ts";
import type { WindowsRequest } from "../../model/harvest/index.ts";
import { type Manner, numberText, quantityText } from "../format/manner.ts";
import { listText, ROUTE_LABELS } from "../format/words.ts";
import { readClock, shownClock } from "../state/clock-text.ts";
import type { Inputs, RakeChoice, TedChoice } from "../state/inputs.ts";

const CONDITIONING: Readonly<Record<Conditioning, string>> = {
  none: "not conditioned",
  roll: "rollers",
  impeller: "impeller",
  intensive: "intensive",
};

function tedWords(ted: TedChoice, { texts }: Inputs, hour12: boolean): string {
  switch (ted) {
    case "usual":
      return "as the crop and route commonly get it";
    case "none":
      return "none";
    case "morning-after":
      return `the day after the cut at ${shownClock("tedHour", texts.tedHour.text, hour12)}`;
    case "after-cut":
      return `${texts.tedAfterH.text.trim()} h after the cut`;
  }
}

function rakeWords(rake: RakeChoice, { texts }: Inputs): string {
  switch (rake) {
    case "usual":
      return "as the crop and route commonly get it";
    case "none":
      return "none";
    case "before-window":
      return `${texts.rakeBeforeH.text.trim()} h before the baler`;
  }
}

/** What the levers and fields said when the answer was worked out, as words for paper. */
export function leverWords(
  inputs: Inputs,
  request: Omit<WindowsRequest, "weather">,
  manner: Manner,
): (readonly [string, string])[] {
  const { swath, field, routes, workHours, cutHours } = request;
  const { coveredFraction, dryMatterTHa, initialMoistureWb } = swath;
  const percent = (share: number, decimals = 0) => `${numberText(share * 100, decimals, manner)} %`;
  const clock = (which: "workFrom" | "workTo", text: string) => {
    const reading = readClock(text, which === "workTo");
    return reading === null ? text : shownClock(which, reading, manner.hour12);
  };
  const words: (readonly [string, string])[] = [
    ["Crop", CROP_CATALOGUE[inputs.crop].label],
    ["Area", quantityText(field.areaHa, "area", manner)],
    ["Yield", `${quantityText(dryMatterTHa, "dryMatterYield", manner)} of dry matter`],
    ["Moisture at cutting", percent(initialMoistureWb, 1)],
    ["Swath", `covers ${percent(coveredFraction)} of the cut`],
    ["Conditioning", CONDITIONING[inputs.conditioning]],
    ["Stubble", quantityText(swath.stubbleCm, "stubble", manner)],
    ["Drying agent", inputs.dryingAgent ? "sprayed at the mower" : "none"],
    ["Ted", tedWords(inputs.ted, inputs, manner.hour12)],
    ["Rake", rakeWords(inputs.rake, inputs)],
    ["Ground", inputs.soil],
    ["Routes", listText((routes ?? []).map(({ route }) => ROUTE_LABELS[route]))],
  ];
  if (workHours)
    words.push(["Working hours", `${clock("workFrom", workHours.from)} to ${clock("workTo", workHours.to)}`]);
  if (cutHours)
    words.push([
      "Cut hours",
      shownClock("cutHours", cutHours.join(" "), manner.hour12)
        .replace(/ (?=\d)/g, ", ")
        .replace(/,,/g, ","),
    ]);
  return words;
}
