/** The operations of a field in the order of the work, and the machine that each needs. */

export const CREW_OPS = ["mow", "ted", "rake", "bale", "chop", "wrap", "haul"] as const;
export type CrewOp = (typeof CREW_OPS)[number];

export const MACHINE_KINDS = ["mower", "tedder", "rake", "baler", "chopper", "wrapper", "cart"] as const;
export type MachineKind = (typeof MACHINE_KINDS)[number];

export const KIND_OF_OP: Readonly<Record<CrewOp, MachineKind>> = {
  mow: "mower",
  ted: "tedder",
  rake: "rake",
  bale: "baler",
  chop: "chopper",
  wrap: "wrapper",
  haul: "cart",
};

/** What a person calls the work and the machine. */
export const OP_WORDS: Readonly<Record<CrewOp, string>> = {
  mow: "mowing",
  ted: "tedding",
  rake: "raking",
  bale: "baling",
  chop: "chopping",
  wrap: "wrapping",
  haul: "hauling",
};

/** Crop is taken off the swath by one of these: the window of the route is theirs. */
export const GATHER_OPS: readonly CrewOp[] = ["bale", "chop"];

export function isGather(op: string): boolean {
  return op === "bale" || op === "chop";
}

/** Work on the swath between its mowing and its taking. */
export function isPass(op: string): op is "ted" | "rake" {
  return op === "ted" || op === "rake";
}

/** Place of an operation in the order of the work; -1 for a stranger. */
export function opOrder(op: string): number {
  return (CREW_OPS as readonly string[]).indexOf(op);
}
