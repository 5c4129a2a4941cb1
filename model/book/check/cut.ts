import type { Issue } from "../../limits.ts";
import type { CutDoc } from "../work-docs.ts";
import { notAhead, notBefore } from "./issue.ts";

const EARLIEST = (times: readonly (string | null | undefined)[]): string | null =>
  times
    .filter((utc): utc is string => typeof utc === "string")
    .reduce<string | null>(
      (first, utc) => (first === null || Date.parse(utc) < Date.parse(first) ? utc : first),
      null,
    );

/** When a cut was made: its hour and that of its mower may differ by a little, the earlier one counts. null = it stands. */
export function cutBegan({ cutUtc, operations }: CutDoc): string | null {
  const mown = (operations ?? []).filter(({ kind }) => kind === "mow").map(({ doneUtc }) => doneUtc);
  return EARLIEST([cutUtc, ...mown]);
}

/** What was done of a cut, in its order and not ahead. Plans are free: they change. */
export function cutIssues(cut: CutDoc, nowMs: number): Issue[] {
  const { cutUtc, closedUtc, operations } = cut;
  const passes = operations ?? [];
  const began = cutBegan(cut);
  return [
    ...notAhead({ path: "cutUtc", utc: cutUtc }, nowMs),
    ...notBefore({ path: "closedUtc", utc: closedUtc }, began, "it was cut"),
    ...notAhead({ path: "closedUtc", utc: closedUtc }, nowMs),
    ...passes.flatMap(({ kind, doneUtc, doneEndUtc }, i) => {
      const done = { path: `operations[${i}].doneUtc`, utc: doneUtc };
      const end = { path: `operations[${i}].doneEndUtc`, utc: doneEndUtc };
      const first = doneUtc ? done : end;
      return [
        ...(kind === "mow" ? [] : notBefore(first, began, "it was cut")),
        ...notBefore(end, doneUtc, "it was begun"),
        ...notAhead(done, nowMs),
        ...notAhead(end, nowMs),
      ];
    }),
  ];
}
