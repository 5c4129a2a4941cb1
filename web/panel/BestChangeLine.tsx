import type { Dispatch } from "../app/use-model.ts";
import type { BestChange } from "./best-change.ts";

/** The one change that would help most, and a button that makes it. Nothing while none is known. */
export function BestChangeLine({
  best,
  dispatch,
}: {
  readonly best: BestChange | null;
  readonly dispatch: Dispatch;
}) {
  if (best === null) return null;
  const { what, inputs } = best.candidate;
  return (
    <div class="help-most" role="status">
      <p>
        Would help most: <strong>{best.text}</strong>
      </p>
      <button type="button" onClick={() => dispatch({ kind: "inputs", what, inputs })}>
        Do this
      </button>
    </div>
  );
}
