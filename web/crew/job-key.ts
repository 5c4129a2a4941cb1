import type { CrewJobAnswer } from "../../model/crew/index.ts";

/** Begun before the plan's now: what is done or under way cannot be moved. */
export const isBegun = ({ startUtc }: Pick<CrewJobAnswer, "startUtc">, nowUtc: string) =>
  Date.parse(startUtc) < Date.parse(nowUtc);

/** "creek/mow": a field's work is there once in a plan. */
export const jobKey = ({ fieldId, op }: Pick<CrewJobAnswer, "fieldId" | "op">) => `${fieldId}/${op}`;
