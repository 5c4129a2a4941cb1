import { DAY_MS } from "../../weather/clock.ts";
import type { IntervalBefore } from "../farm-docs.ts";
import type { Entry } from "../kinds.ts";
import { intervalText, runningIntervals } from "../label-interval.ts";
import type { CutDoc, CutOperation, LotDoc } from "../work-docs.ts";
import { filmItems } from "./film.ts";
import { type DueItem, type DueWork, dayText, type Ground, itemOf } from "./item.ts";
import { gasUntil, keepOutItem } from "./keep-out.ts";
import { DUE } from "./records.ts";

const WORK: Readonly<Record<CutOperation, { readonly work: DueWork; readonly verb: string }>> = {
  mow: { work: "mow", verb: "mow" },
  ted: { work: "turn", verb: "ted" },
  invert: { work: "turn", verb: "turn" },
  rake: { work: "rake", verb: "rake" },
  bale: { work: "bale", verb: "bale" },
  wrap: { work: "wrap", verb: "wrap" },
  chop: { work: "chop", verb: "chop" },
  haul: { work: "haul", verb: "haul" },
};

/** What the labels' days count before, of a cut of that route. */
export function intervalsBefore(route: CutDoc["route"]): readonly IntervalBefore[] {
  if (route === "grazing") return ["grazing"];
  // Fed on the day that it is cut.
  return route === "green-chop" ? ["cutting", "feeding"] : ["cutting"];
}

/** Before the standing crop is cut: the labels' intervals that are not over by then. */
function beforeCutting(cut: Entry<"cuts">, atMs: number, { sprays, timeZone }: Ground): string {
  return intervalText(runningIntervals(sprays, intervalsBefore(cut.doc.route), atMs, timeZone));
}

const STANDING = ["direct-chop", "green-chop"];

function mowItem(cut: Entry<"cuts">, name: string, ground: Ground): DueItem[] {
  const { plannedUtc, cutUtc, operations } = cut.doc;
  if (!plannedUtc || cutUtc || operations?.some(({ kind }) => kind === "mow")) return [];
  const atMs = Date.parse(plannedUtc);
  const text = [beforeCutting(cut, atMs, ground), "Ask the insurer and read the labels' intervals first."]
    .join(" ")
    .trim();
  return [itemOf(ground, { work: "mow", part: "", name, verb: "mow", text, atMs })];
}

const BRINGS_IN: readonly CutOperation[] = ["bale", "chop", "haul"];

/** When the mower or the chopper took it; null = it stands. */
function takenMs({ cutUtc, operations }: CutDoc): number | null {
  const mown = operations?.find(({ kind }) => kind === "mow");
  const utc = cutUtc ?? mown?.doneUtc ?? mown?.doneEndUtc;
  return utc ? Date.parse(utc) : null;
}

/** Cut, and nothing planned or done that would bring it in: it lies, and somebody has to say what becomes of it. */
function lyingItem(cut: Entry<"cuts">, name: string, ground: Ground): DueItem[] {
  const { route, operations } = cut.doc;
  const cutMs = takenMs(cut.doc);
  const cared = operations?.some(({ kind }) => BRINGS_IN.includes(kind));
  if (cutMs === null || cared || route === "grazing") return [];
  const days = STANDING.includes(route ?? "") ? 0 : DUE.lieDays.value;
  const text = `It lies since ${dayText(cutMs, ground.timeZone)} and nothing is planned that brings it in. Enter turning and baling or chopping, or close the cut when it is in.`;
  const common = { work: "bring-in", part: "", name, verb: "bring it in or close it" } as const;
  const source = days === 0 ? null : DUE.lieDays.source;
  return [itemOf(ground, { ...common, text, atMs: cutMs + days * DAY_MS, allDay: true, source })];
}

/** The gas of what was chopped into a store and is no lot yet; closed or not, it is there. */
function gasItem(cut: Entry<"cuts">, name: string, ground: Ground, lots: readonly LotDoc[]): DueItem[] {
  const chopped = cut.doc.operations?.find(
    ({ kind, doneUtc, doneEndUtc }) => kind === "chop" && (doneUtc ?? doneEndUtc),
  );
  const utc = chopped?.doneUtc ?? chopped?.doneEndUtc;
  if (!utc) return [];
  const { route, crop } = cut.doc;
  const filledMs = Date.parse(utc);
  // Only a lot that gives off gas itself, filled no earlier than the day of the chopping, tells of it instead.
  const told = lots.some(({ route: of, crop: grown, storedUtc }) => {
    const storedMs = Date.parse(storedUtc);
    return storedMs > filledMs - DAY_MS && gasUntil(of, grown, storedMs) !== null;
  });
  return told ? [] : keepOutItem({ name, route: route ?? "wilted-chop", crop, filledMs }, ground);
}

/**
 * What is still to do on a cut, and what it makes dangerous.
 *
 * @param lots that were made of it: their film and gas are the lots' own
 */
export function dueOfCut(
  cut: Entry<"cuts">,
  name: string,
  ground: Ground,
  lots: readonly LotDoc[],
): DueItem[] {
  const hasLot = lots.length > 0;
  const lotsStoredMs = lots.map(({ storedUtc }) => Date.parse(storedUtc));
  const gas = gasItem(cut, name, ground, lots);
  if (cut.doc.closedUtc) return gas;
  const filmed = filmItems(cut, name, ground, lotsStoredMs);
  const operations = (cut.doc.operations ?? []).flatMap((operation, i) => {
    const { kind, plannedUtc, doneUtc, doneEndUtc } = operation;
    if (!plannedUtc || doneUtc || doneEndUtc) return [];
    if (kind === "wrap" && (hasLot || filmed.length > 0)) return [];
    const { work, verb } = WORK[kind];
    const atMs = Date.parse(plannedUtc);
    const cuts = kind === "mow" || (kind === "chop" && STANDING.includes(cut.doc.route ?? ""));
    const warning = cuts && !cut.doc.cutUtc ? beforeCutting(cut, atMs, ground) : "";
    const text = `${warning} ${operation.notes ?? "As planned; the weather decides."}`.trim();
    return [itemOf(ground, { work, part: String(i), name, verb, text, atMs })];
  });
  const lying = hasLot ? [] : lyingItem(cut, name, ground);
  return [...gas, ...mowItem(cut, name, ground), ...operations, ...filmed, ...lying];
}
