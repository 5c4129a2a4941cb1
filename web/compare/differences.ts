import { CROP_CATALOGUE } from "../../model/drying/index.ts";
import type { Conditioning } from "../../model/drying/keys.ts";
import type { OperationAnswer, RouteAnswer } from "../../model/harvest/index.ts";
import { toldMs } from "../course/told-ms.ts";
import { dayClockText, shortDayClockText, utcMs } from "../format/farm-time.ts";
import { type Manner, quantityText } from "../format/manner.ts";
import { moisturePct } from "../format/words.ts";
import { coverWords } from "../panel/widths.ts";
import type { Inputs } from "../state/inputs.ts";
import type { Kept } from "../state/state.ts";
import { cutUtcOf } from "./kept-cut.ts";

/** One thing in which two cuts are not alike, as a heading and as each is called in a sentence. */
export interface Difference {
  readonly what: string;
  readonly now: string;
  readonly kept: string;
  /** True for a usual pass that comes or goes with something else: a windrow is not raked. */
  readonly follows?: true;
}

const CONDITIONING_WORDS: Readonly<Record<Conditioning, string>> = {
  none: "unconditioned",
  roll: "rollers",
  impeller: "impeller",
  intensive: "intensive conditioning",
};

/** The route that is looked at, with its passes. */
export function routeOf({ option, route }: Kept): RouteAnswer | null {
  return option.routes.find(({ route: key }) => key === route) ?? null;
}

/** Passes are alike while the same rule sets them: their hours follow the cut and the window. */
function sameRule(kind: "ted" | "rake", a: Inputs, b: Inputs): boolean {
  if (a[kind] !== b[kind]) return false;
  const fields = kind === "ted" ? (["tedHour", "tedAfterH"] as const) : (["rakeBeforeH"] as const);
  const chosen = { tedHour: "morning-after", tedAfterH: "after-cut", rakeBeforeH: "before-window" };
  return fields.every((field) => {
    if (a[kind] !== chosen[field]) return true;
    return a.texts[field].text === b.texts[field].text && a.texts[field].units === b.texts[field].units;
  });
}

function passWords(passes: readonly OperationAnswer[], kind: "ted" | "rake", manner: Manner): string {
  const [done, none] = kind === "ted" ? ["tedded", "no tedding"] : ["raked", "no raking"];
  const times = passes
    .filter((pass) => pass.kind === kind)
    .map(({ atUtc }) => shortDayClockText(toldMs(atUtc), manner));
  return times.length === 0 ? none : `${done} ${times.join(" and ")}`;
}

/** Everything in which the chosen and the kept cut differ, what weighs most first. */
export function differences(now: Kept, kept: Kept, manner: Manner): Difference[] {
  const [a, b] = [now.request.swath, kept.request.swath];
  const found: Difference[] = [];
  const add = (what: string, of: (swath: typeof a) => string) => {
    if (of(a) !== of(b)) found.push({ what, now: of(a), kept: of(b) });
  };
  add("Crop", ({ crop }) => CROP_CATALOGUE[crop].label.toLowerCase());
  add("Width", ({ coveredFraction }) => coverWords(coveredFraction, manner).toLowerCase());
  add("Conditioning", ({ conditioning }) => CONDITIONING_WORDS[conditioning]);
  add("Drying agent", ({ dryingAgent }) => (dryingAgent ? "drying agent" : "no drying agent"));
  const cuts = [cutUtcOf(now), cutUtcOf(kept)] as const;
  if (utcMs(cuts[0]) !== utcMs(cuts[1]))
    found.push({
      what: "Cut",
      now: `cut ${dayClockText(cuts[0], manner)}`,
      kept: `cut ${dayClockText(cuts[1], manner)}`,
    });
  for (const kind of ["ted", "rake"] as const) {
    const [p, q] = [routeOf(now)?.operations ?? [], routeOf(kept)?.operations ?? []];
    const alike = p.some((pass) => pass.kind === kind) === q.some((pass) => pass.kind === kind);
    const same = sameRule(kind, now.inputs, kept.inputs);
    const [x, y] = [passWords(p, kind, manner), passWords(q, kind, manner)];
    if ((alike && same) || x === y) continue;
    const difference = { what: kind === "ted" ? "Tedding" : "Raking", now: x, kept: y };
    found.push(same ? { ...difference, follows: true } : difference);
  }
  add("Yield", ({ dryMatterTHa }) => quantityText(dryMatterTHa, "dryMatterYield", manner));
  add(
    "Moisture at cutting",
    ({ initialMoistureWb }) => `${moisturePct(initialMoistureWb, manner)} at cutting`,
  );
  add("Stubble", ({ stubbleCm }) => `${quantityText(stubbleCm, "stubble", manner)} stubble`);
  add("Ground", ({ soil }) => `${soil} ground`);
  if (now.source.series !== kept.source.series)
    found.push({ what: "Weather", now: "this weather", kept: "other weather" });
  return found;
}
