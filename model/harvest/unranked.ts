import type { BoardOddsAnswer, PlaceAnswer, WindowsAnswer } from "./answer.ts";
import { unrankedWords } from "./choice-text.ts";
import type { Board } from "./found-board.ts";
import type { Lead } from "./lead.ts";
import { ROUTE_CATALOGUE } from "./routes.ts";
import type { Settled } from "./settle.ts";
import { HA_PER_ACRE } from "./standing-yield.ts";
import { dateWords } from "./words.ts";

/**
 * What only the draws bring in has no rank: the passes of such a pair wait for a window that the main forecast lacks, its
 * value is that of the draws without them, and nobody can be sent at an hour. Where it is worth more all the same, that is told.
 */

/** Of pairs without a window in the main forecast the one worth most on average, if more than the first place, or than what stands. */
function unrankedOf(
  { options }: WindowsAnswer,
  first: PlaceAnswer | undefined,
  leadOver: (other: PlaceAnswer) => Lead | null,
): PlaceAnswer | null {
  const found = options
    .filter(({ made }) => !made)
    .flatMap(({ id, routes }) =>
      routes.flatMap(({ route, windows, valuePerHa, odds }): PlaceAnswer[] =>
        // What takes a day's need only is worth so much where it is taken, not over the field.
        windows.length > 0 || valuePerHa === null || odds === undefined || !ROUTE_CATALOGUE[route].wholeArea
          ? []
          : [{ optionId: id, route, valuePerHa, chance: odds.chance }],
      ),
    )
    .filter(({ valuePerHa }) => valuePerHa > (first?.valuePerHa ?? 0))
    .sort((a, b) => b.valuePerHa - a.valuePerHa);
  return found.find((one) => !leadOver(one)?.equal) ?? null;
}

/** The same in words, as `unrankedWords` builds them. */
function unrankedText(
  { options }: WindowsAnswer,
  { optionId, route, valuePerHa, chance }: PlaceAnswer,
  first: PlaceAnswer | undefined,
  { clock, saying }: Pick<Settled, "clock" | "saying">,
): string {
  const { cutUtc = null } = options.find(({ id }) => id === optionId) ?? {};
  const cut =
    cutUtc === null ? "leave it standing" : `cut ${dateWords(saying, clock.partsAt(Date.parse(cutUtc)))}`;
  const isUs = saying.units === "us";
  return unrankedWords(
    { valuePerHa, chance, firstPerHa: first?.valuePerHa ?? null },
    {
      cut: `${cut}, ${ROUTE_CATALOGUE[route].label.toLowerCase()}`,
      money: (perHa) => String(Math.round(isUs ? perHa * HA_PER_ACRE : perHa)),
      area: isUs ? "an acre" : "a hectare",
    },
  );
}

/** The same with its text; nothing where there is none. */
export function unrankedAnswer(
  { settled }: Board,
  answer: WindowsAnswer,
  first: PlaceAnswer | undefined,
  leadOver: (other: PlaceAnswer) => Lead | null,
): Pick<BoardOddsAnswer, "unranked"> {
  const found = unrankedOf(answer, first, leadOver);
  return found === null ? {} : { unranked: { ...found, text: unrankedText(answer, found, first, settled) } };
}
