import { MINUTE_MS } from "../weather/clock.ts";
import type { CrewCaution } from "./answer.ts";
import type { BuiltCrew } from "./build-grid.ts";
import type { CrewOp } from "./keys.ts";
import type { CrewJob } from "./problem.ts";
import { travelMinutes } from "./travel.ts";
import { fieldName, hoursWord, listWords, spanTime, spokenClock } from "./words.ts";

/**
 * Carts that held works would have in two places: at a hauling and behind a chopper, or behind two that share them, or on no
 * drive between the two. Works that are planned have their carts.
 */
export function cartCautions(built: BuiltCrew, jobs: readonly CrewJob[]): CrewCaution[] {
  const { behind } = built.carts;
  if (behind === null) return [];
  const { fields, machines } = built.request;
  const fieldOf = (fieldId: string) => fields.find(({ id }) => id === fieldId);
  const at = (fieldId: string) => fieldName(fieldOf(fieldId) ?? { id: fieldId });
  const called = (id: string) => machines.find((one) => one.id === id)?.name ?? id;
  const toCome = jobs.filter(({ endUtcMs }) => endUtcMs > built.nowUtcMs);
  const choppings = jobs.filter(({ op }) => op === "chop");
  const span = ({ startUtcMs, endUtcMs }: CrewJob) => spanTime(startUtcMs, endUtcMs, spokenClock(built));
  const caution = ({ fieldId, op }: CrewJob, text: string): CrewCaution[] => {
    const held = built.placed.find(({ asked }) => asked.fieldId === fieldId && asked.op === op);
    return held === undefined ? [] : [{ fieldId, op: op as CrewOp, code: "travel", path: held.path, text }];
  };
  const driveMs = (one: CrewJob, other: CrewJob) => {
    const [from, to] = [fieldOf(one.fieldId)?.siteId ?? "", fieldOf(other.fieldId)?.siteId ?? ""];
    return (travelMinutes(built.travelMin, from, to) ?? 0) * MINUTE_MS;
  };
  const hauls = toCome.flatMap((haul): CrewCaution[] => {
    if (haul.op !== "haul") return [];
    // Of two that have both begun neither can be moved.
    const own = choppings.filter(
      ({ machineId, startUtcMs }) =>
        Math.max(startUtcMs, haul.startUtcMs) >= built.nowUtcMs &&
        behind.get(machineId)?.some(({ id }) => id === haul.machineId) === true,
    );
    const within = (ms: (chop: CrewJob) => number) =>
      own.filter(
        (chop) => chop.startUtcMs < haul.endUtcMs + ms(chop) && haul.startUtcMs < chop.endUtcMs + ms(chop),
      );
    const hauled = `${at(haul.fieldId)}: ${called(haul.machineId)} hauls ${span(haul)}, and is reckoned behind the chopper at`;
    const remedy = "move one of them, or see to another cart.";
    const meets = within(() => 0);
    if (meets.length > 0) {
      const there = listWords(meets.map(({ fieldId }) => at(fieldId)));
      return caution(haul, `${hauled} ${there} then: ${remedy}`);
    }
    return within((chop) => driveMs(chop, haul))
      .slice(0, 1)
      .flatMap((chop) => {
        const there = `${at(chop.fieldId)} ${span(chop)}`;
        return caution(
          haul,
          `${hauled} ${there}, a drive of ${hoursWord(driveMs(chop, haul))} away: ${remedy}`,
        );
      });
  });
  const inTurn = toCome.flatMap((chop): CrewCaution[] => {
    if (chop.op !== "chop") return [];
    const own = behind.get(chop.machineId) ?? [];
    return choppings
      .filter((other) => other.machineId !== chop.machineId && other.startUtcMs <= chop.startUtcMs)
      .filter((other) => chop.startUtcMs < other.endUtcMs + driveMs(other, chop))
      .flatMap((other) => {
        const both = own.filter(({ id }) => behind.get(other.machineId)?.some((cart) => cart.id === id));
        if (both.length === 0 || (other.startUtcMs === chop.startUtcMs && other.machineId > chop.machineId))
          return [];
        const text = `${at(chop.fieldId)}: chopping ${span(chop)} needs ${listWords(both.map(({ id }) => called(id)))}, also behind ${called(other.machineId)} at ${at(other.fieldId)} ${span(other)}: move one of them, or see to another cart.`;
        return caution(chop, text);
      });
  });
  return [...hauls, ...inTurn];
}
