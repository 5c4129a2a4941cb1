import type { CropKey } from "../../model/drying/keys.ts";
import { practiceFor } from "../../model/harvest/route-details/index.ts";
import type { Manner } from "../format/manner.ts";
import { numberText } from "../format/manner.ts";
import { toPage, toStep, unitName } from "../format/units.ts";

/** What people commonly do, beside what counts here; heights in the unit of the page. */

type Speech = Pick<Manner, "units" | "locale">;
const OF_HEIGHTS = /, cm$/;

function inPageUnits(text: string, { units, locale }: Speech): string {
  const page = (cm: string) =>
    numberText(toStep(toPage(Number(cm), "stubble", units), "stubble", units), 1, { locale });
  return text.replace(/(\d+) cm/g, (_all, cm: string) => `${page(cm)} ${unitName("stubble", units)}`);
}

export function practiceTable(crop: CropKey, manner: Speech): readonly (readonly string[])[] {
  return practiceFor(crop).map(({ quantity, range, label, computes }) => {
    const heights = OF_HEIGHTS.test(quantity) && manner.units === "us";
    const cells = heights
      ? [
          quantity.replace(OF_HEIGHTS, `, ${unitName("stubble", manner.units)}`),
          range.replace(/\d+/g, (cm) => inPageUnits(`${cm} cm`, manner).replace(/ [a-z]+$/, "")),
          inPageUnits(computes, manner),
        ]
      : [quantity, range, computes];
    return [cells[0] ?? "", cells[1] ?? "", label, cells[2] ?? ""];
  });
}
