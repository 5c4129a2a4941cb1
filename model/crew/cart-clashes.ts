import type { BuiltCrew } from "./build-grid.ts";
import type { CrewJob } from "./problem.ts";
import { fieldName, listWords, spanTime, spokenClock } from "./words.ts";

/** Carts that a plan would have in two places: a cart alone that is reckoned for both works, or work that is held. */
export function cartWarnings(built: BuiltCrew, jobs: readonly CrewJob[]): string[] {
  const { behind } = built.carts;
  if (behind === null) return [];
  const { fields, machines } = built.request;
  const at = (fieldId: string) => fieldName(fields.find(({ id }) => id === fieldId) ?? { id: fieldId });
  const called = (id: string) => machines.find((one) => one.id === id)?.name ?? id;
  const toCome = jobs.filter(({ endUtcMs }) => endUtcMs > built.nowUtcMs);
  const choppings = toCome.filter(({ op }) => op === "chop");
  const span = ({ startUtcMs, endUtcMs }: CrewJob) => spanTime(startUtcMs, endUtcMs, spokenClock(built));
  const clashes = toCome.flatMap((haul): string[] => {
    if (haul.op !== "haul") return [];
    const meets = choppings.filter(
      (chop) =>
        chop.startUtcMs < haul.endUtcMs &&
        haul.startUtcMs < chop.endUtcMs &&
        behind.get(chop.machineId)?.some(({ id }) => id === haul.machineId) === true,
    );
    if (meets.length === 0) return [];
    const there = listWords(meets.map((chop) => at(chop.fieldId)));
    return [
      `${at(haul.fieldId)}: ${called(haul.machineId)} hauls ${span(haul)}, and is reckoned behind the chopper at ${there} then: move one of them, or see to another cart.`,
    ];
  });
  const cartless = choppings.flatMap((chop): string[] =>
    behind.get(chop.machineId)?.length === 0
      ? [
          `${at(chop.fieldId)}: chopping ${span(chop)} is held with ${called(chop.machineId)}, and all carts follow other choppers: see that they can come.`,
        ]
      : [],
  );
  return [...clashes, ...cartless];
}
