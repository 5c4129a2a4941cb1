import { BARREN_CORN, type YieldEstimate } from "../../model/harvest/index.ts";
import { type Manner, numberText, quantityText } from "../format/manner.ts";
import { PAGE_UNITS, toPage, unitName } from "../format/units.ts";

const LB_PER_TON = 2000;
const CM_PER_FT = 30.48;

/** What the yield comes to, and how far it is to be believed; the range null where the way has none. */
export interface YieldShown {
  readonly result: string;
  readonly range: string | null;
}

type Speech = Pick<Manner, "units" | "locale">;

function rangeText({ rangeTHa, tooHigh }: YieldEstimate, manner: Speech): string | null {
  if (rangeTHa === null) return null;
  const { decimals } = PAGE_UNITS.dryMatterYield[manner.units];
  const [low, high] = rangeTHa.map((value) =>
    numberText(toPage(value, "dryMatterYield", manner.units), decimals, manner),
  );
  const range = `Counted with the lowest of the published rules (${low} to ${high} ${unitName("dryMatterYield", manner.units)}). If more stands, it lies thicker and dries slower.`;
  if (!tooHigh) return range;
  const short = quantityText(BARREN_CORN.shortFt.value * CM_PER_FT, "plantHeight", manner);
  return `${range} Too high for plants of ${short} or less.`;
}

/** "3.8 t/ha of dry matter", in US customary units with lb/ac beside ton/ac. */
export function yieldShown(estimate: YieldEstimate | null, manner: Speech): YieldShown {
  if (estimate === null) return { result: "Dry matter: not known yet", range: null };
  const text = quantityText(estimate.dryMatterTHa, "dryMatterYield", manner);
  const tons = toPage(estimate.dryMatterTHa, "dryMatterYield", "us");
  const pounds =
    manner.units === "us"
      ? ` (${numberText(Math.round((tons * LB_PER_TON) / 10) * 10, 0, manner)} lb/ac)`
      : "";
  return { result: `${text}${pounds} of dry matter`, range: rangeText(estimate, manner) };
}
