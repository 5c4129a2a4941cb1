import { wrapDelay } from "../../harvest/route-details/wrap-delay.ts";
import { WRAPPING } from "../../harvest/route-details/wrapping.ts";
import { HOUR_MS } from "../../weather/clock.ts";
import type { IntervalBefore } from "../farm-docs.ts";
import type { Entry } from "../kinds.ts";
import { intervalText, runningIntervals } from "../label-interval.ts";
import type { CutDoc, CutOperation, CutOperationDoc } from "../work-docs.ts";
import { type DueItem, type DueWork, type Ground, hourText, itemOf } from "./item.ts";

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

/** When the film has to be on: hours from the end of baling. */
export function wrapByMs(baledMs: number): number {
  return baledMs + WRAPPING.lateH.value * HOUR_MS;
}

/** What to say of film that is not on yet. */
export function wrapText(baledMs: number, nowUtcMs: number): string {
  const sinceH = (nowUtcMs - baledMs) / HOUR_MS;
  return sinceH > WRAPPING.lateH.value ? wrapDelay(Math.min(sinceH, 10_000)).text : wrapDelay(0).text;
}

function baledMs(operations: readonly CutOperationDoc[]): number | null {
  const utc = operations
    .filter(({ kind }) => kind === "bale")
    .map(({ doneEndUtc, doneUtc, plannedUtc }) => doneEndUtc ?? doneUtc ?? plannedUtc ?? null)
    .find((time) => time !== null);
  return utc === undefined ? null : Date.parse(utc);
}

/** The film: by when, and when it is planned. */
function wrapItem(cut: Entry<"cuts">, name: string, ground: Ground): DueItem[] {
  const operations = cut.doc.operations ?? [];
  const wraps = operations.filter(({ kind }) => kind === "wrap");
  const baled = baledMs(operations);
  if (cut.doc.route !== "wrapped-bales" || baled === null) return [];
  if (wraps.some(({ doneUtc, doneEndUtc }) => (doneUtc ?? doneEndUtc ?? null) !== null)) return [];
  const byMs = wrapByMs(baled);
  const planned = wraps.find(({ plannedUtc }) => plannedUtc)?.plannedUtc;
  const atMs = planned ? Math.min(Date.parse(planned), byMs) : byMs;
  const late =
    planned && Date.parse(planned) > byMs
      ? `Planned for ${hourText(Date.parse(planned), ground.timeZone)}, which is late. `
      : "";
  const text = `${late}Film on by ${hourText(byMs, ground.timeZone)}. ${wrapText(baled, ground.nowUtcMs)}`;
  const { source } = WRAPPING.lateH;
  return [itemOf(ground, { work: "wrap", part: "", name, verb: "wrap", text, atMs, byMs, source })];
}

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

/**
 * What is still to do on a cut.
 *
 * @param hasLot true where its bales are a lot already: the film is then the lot's
 */
export function dueOfCut(cut: Entry<"cuts">, name: string, ground: Ground, hasLot: boolean): DueItem[] {
  if (cut.doc.closedUtc) return [];
  const filmed = hasLot ? [] : wrapItem(cut, name, ground);
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
  return [...mowItem(cut, name, ground), ...operations, ...filmed];
}
