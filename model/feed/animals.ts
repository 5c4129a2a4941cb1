/** Whom the feed is for, as far as nitrate tells them apart. */

export const ANIMAL_CLASSES = [
  "beef-cow",
  "dairy-cow",
  "heifer",
  "calf",
  "steer",
  "bull",
  "ewe",
  "lamb",
  "doe",
  "horse",
  "mare",
] as const;
export type AnimalClass = (typeof ANIMAL_CLASSES)[number];

export interface Animal {
  readonly class: AnimalClass;
  /** Live weight, kg. */
  readonly kg: number;
  readonly pregnant?: boolean | undefined;
  /** Growing, thin, sick, hungry or newly arrived: read as the pregnant are. */
  readonly young?: boolean | undefined;
}

export const ANIMAL_KG_LIMIT = { min: 10, max: 1500, unit: "kg" } as const;

export function isHorse({ class: kind }: Pick<Animal, "class">): boolean {
  return kind === "horse" || kind === "mare";
}

/** Tables' stricter column: the pregnant, and who is named beside them (Manitoba Agriculture; Kansas State column). */
export function readsStricter({
  class: kind,
  pregnant,
  young,
}: Pick<Animal, "class" | "pregnant" | "young">): boolean {
  return pregnant === true || young === true || kind === "calf" || kind === "lamb";
}

/** What is said of kinds that the tables, made for cattle, do not speak of. */
export function animalCautions({ class: kind, pregnant }: Animal): string[] {
  const lines: string[] = [];
  if (pregnant === true && (kind === "bull" || kind === "steer"))
    lines.push(
      `A ${kind} cannot be pregnant: one of the two is wrong. Until it is mended it is read as pregnant stock, the stricter.`,
    );
  if (isHorse({ class: kind }))
    lines.push(
      "Horses: advice runs from 0.2 % NO3 for mares and growing stock over 0.5 % for adults to 1.5 % fed without harm, and the tables are for cattle. Ask a veterinarian. No wrapped bales for horses without one.",
    );
  if (kind === "ewe" || kind === "lamb" || kind === "doe")
    lines.push("Sheep and goats are read by the cattle tables (from memory): ask a veterinarian.");
  if (pregnant === true || kind === "mare" || kind === "ewe" || kind === "doe")
    lines.push("Pregnant stock can abort at levels that others show no sign of: ask a veterinarian first.");
  return lines;
}
