import type { Outcome } from "../limits.ts";
import type { DrydownAnswer } from "./answer.ts";
import type { DrydownRequest } from "./request.ts";

/** One course with its targets and second opinions: what /api/drydown, the command line and the page's worker call. */
export function drydown(_request: DrydownRequest): Outcome<DrydownAnswer> {
  throw new Error("drydown: placeholder until the course is in place");
}
