/** "8 in 10", "under 1 in 10", "over 9 in 10": never none, never all. */
export function chanceWords(chance: number): string {
  if (chance < 0.05) return "under 1 in 10";
  if (chance > 0.95) return "over 9 in 10";
  return `${Math.round(chance * 10)} in 10`;
}
