import type { RouteAnswer } from "./answer.ts";
import type { BoardWarning } from "./board-warnings.ts";
import type { Board } from "./found-board.ts";
import { ROUTE_CATALOGUE } from "./routes.ts";
import type { Settled } from "./settle.ts";
import { dateWords, hoursWords } from "./words.ts";

/** What a board warns of beside its weather. */

/** What every board of these routes and cut hours is warned of. */
export function warningsOf(
  settled: Settled,
  cuts: { readonly offered: number; readonly outsideWork: number },
): BoardWarning[] {
  const warnings: BoardWarning[] = [];
  if (cuts.outsideWork > 0) {
    const mowing = `Mowing takes ${hoursWords(settled.mowHours, settled.saying)}`;
    warnings.push({
      code: "mowing-outside-work",
      text:
        cuts.offered === 0
          ? `${mowing}: no cut hour leaves room for it in the working hours, so there is no cut to offer.`
          : `${mowing}: ${cuts.outsideWork} cut hours are left out because it would not fit the working hours.`,
    });
  }
  for (const { route } of settled.routes) {
    const { label, caution } = ROUTE_CATALOGUE[route];
    warnings.push({ code: "route-caution", text: `${label}: ${caution}` });
  }
  return warnings;
}

/** Waits that the best pair lies in: said before all else, since a worth takes no account of them. */
export function waitWarnings(
  best: Pick<RouteAnswer, "route" | "hazards" | "why"> | undefined,
): BoardWarning[] {
  if (best === undefined) return [];
  const { route, hazards, why } = best;
  return hazards
    .filter(({ level }) => level === "wait")
    .flatMap(({ code }) => {
      const text = why.find((reason) => reason.code === code)?.text;
      return text === undefined
        ? []
        : [{ code: "hazard-wait" as const, text: `${ROUTE_CATALOGUE[route].label}, the best cut: ${text}` }];
    });
}

function cutWords({ clock, saying }: Settled, cutUtc: string): string {
  return dateWords(saying, clock.partsAt(Date.parse(cutUtc)));
}

/** What is to be said of readings that change nothing, and of cuts that cannot be followed. */
export function readingWarnings({ request, read, leftOut, settled }: Board): BoardWarning[] {
  const given = (request.readCuts ?? []).reduce((sum, { readings }) => sum + readings.length, 0);
  const left = new Set(leftOut.map(({ cutUtc }) => cutUtc));
  return [
    ...leftOut.map(({ text }) => ({ code: "made-cut-left-out" as const, text })),
    ...(request.draws === 0 && given > 0
      ? [
          {
            code: "readings-unused" as const,
            text: `Readings given: ${given}. Without draws no row bends to them.`,
          },
        ]
      : []),
    ...read.unread
      .filter((cutUtc) => !left.has(cutUtc))
      .map((cutUtc) => ({
        code: "readings-unused" as const,
        text: `Readings of the cut ${cutWords(settled, cutUtc)} change nothing here: this weather cannot follow that cut, or no route on the board lies in a swath.${request.learned ? " What was learned before still counts." : ""}`,
      })),
  ];
}
