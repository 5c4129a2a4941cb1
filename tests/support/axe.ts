import axe from "axe-core";

/** The serious faults of accessibility in a part of a page that is drawn in the test's own browser. */
export async function graveFaultsIn(part: Element): Promise<string[]> {
  const { violations } = await axe.run(part);
  return violations
    .filter(({ impact }) => impact === "serious" || impact === "critical")
    .map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" ")}`);
}
