import type { State } from "../state/state.ts";

/** Something that failed and can be tried again. */
export interface Trouble {
  readonly kind: "model" | "samples";
  readonly text: string;
}

/** Refusals that are ours: the model fell over, whatever was asked. */
const OURS: ReadonlySet<string> = new Set(["worker", "model-error"]);

/** What failed that is no mistake of a field: the model's worker, or the way to the samples. */
export function troublesOf({
  refused,
  samplesError,
  picture,
  online,
}: Pick<State, "refused" | "samplesError" | "picture" | "online">): Trouble[] {
  const troubles: Trouble[] = [];
  const keeps = picture === null ? "" : " The board shows the last answer.";
  for (const { code, message } of refused)
    if (OURS.has(code)) troubles.push({ kind: "model", text: `The model stopped: ${message}.${keeps}` });
  if (samplesError !== null && picture === null) {
    const why = online ? `: ${samplesError}` : " without a network, and none are kept on this device";
    troubles.push({ kind: "samples", text: `The invented weather could not be loaded${why}.` });
  }
  return troubles;
}
