import { inTen } from "../odds/in-ten.ts";
import type { BoardOddsAnswer, PlaceAnswer } from "./answer.ts";

/** The figures of a choice between the first place and the runner-up. */
export interface ChoiceFigures extends Pick<BoardOddsAnswer, "lead" | "turnsAtChance"> {
  readonly first: Pick<PlaceAnswer, "valuePerHa" | "chance">;
  readonly runnerUp: Pick<PlaceAnswer, "valuePerHa">;
}

/** How whoever tells a choice says its parts: in its units, clock and language of numbers. */
export interface ChoiceWords {
  /** The runner-up: "cut Sunday 17:00, wilted chop". */
  readonly cut: string;
  /** "It lies in a wait: ... ."; "" where it lies in none. */
  readonly wait: string;
  /** The route of the first place. */
  readonly route: string;
  /** A sum that was given by the hectare, without its area. */
  readonly money: (perHa: number) => string;
  /** "a hectare". */
  readonly area: string;
  readonly percent: (share: number) => string;
}

/** A fall of the chance under this is told as "only a little", 0-1: two points. Invented. */
const LEAST_FALL = 0.02;

/**
 * The choice in words: "Next best: cut Sunday 17:00, wilted chop, worth 40 a hectare less than the best. It comes first if
 * the best cut's chance of ever bringing in dry hay falls from 80 % to 60 %." A lead that rounds to nothing is none.
 */
export function choiceText(
  { first, runnerUp, lead, turnsAtChance }: ChoiceFigures,
  words: ChoiceWords,
): string {
  const { cut, wait, route, money, area, percent } = words;
  const behind = first.valuePerHa - runnerUp.valuePerHa;
  const nothing = money(Math.abs(behind)) === money(0);
  // Only one of which nobody knows how much of the field it takes comes after what is worth less.
  const more = behind < 0 ? "more where it is taken" : "less than the best";
  const apart = nothing ? "" : `, worth ${money(Math.abs(behind))} ${area} ${more}`;
  const join = (...parts: readonly string[]) => parts.filter((part) => part !== "").join(" ");
  const now = percent(first.chance);
  const turned = turnsAtChance === null ? null : percent(turnsAtChance);
  // "From over 99 % to 99 %" is no fall that anyone could see.
  const little = turnsAtChance !== null && (turned === now || first.chance - turnsAtChance < LEAST_FALL);
  const falls = little ? `, now ${now}, falls only a little` : ` falls from ${now} to ${turned}`;
  const turn =
    turned === null
      ? ""
      : `${wait === "" ? "It" : "That cut"} comes first if the best cut's chance of ever bringing in ${route}${falls}.`;
  if (nothing || lead?.equal) {
    const within = lead?.withinPerHa ?? null;
    const surely =
      nothing || within === null ? "" : `; the chances tell that to ${money(within)} either way only`;
    return join(`As good as equal: ${cut}${apart}${surely}.`, wait, turn);
  }
  const unsure = lead?.equal === null ? "One weather alone does not tell how sure that is." : "";
  const never = `No lower chance of ever bringing the best in as ${route} (now ${now}) would alone turn the choice.`;
  return join(`Next best: ${cut}${apart}.`, unsure, wait, turned === null ? never : turn);
}

/** Figures of a pair that has no rank; `firstPerHa` null = nothing has one. */
export interface UnrankedFigures extends Pick<PlaceAnswer, "valuePerHa" | "chance"> {
  readonly firstPerHa: number | null;
}

/**
 * "Worth more on average, with no hour to plan: cut Sunday 09:00, dry hay, 127 a hectare against 90. The main forecast has no
 * window for it, 4 in 10 of its courses have one." So that the best to plan is not taken for the best to expect.
 */
export function unrankedWords(
  { valuePerHa, chance, firstPerHa }: UnrankedFigures,
  { cut, money, area }: Pick<ChoiceWords, "cut" | "money" | "area">,
): string {
  const against = firstPerHa === null ? "" : ` against ${money(firstPerHa)}`;
  return (
    `Worth more on average${firstPerHa === null ? " than leaving it" : ""}, with no hour to plan: ${cut}, ` +
    `${money(valuePerHa)} ${area}${against}. The main forecast has no window for it, ${inTen(chance)} of its courses have one.`
  );
}
