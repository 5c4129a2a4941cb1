import { SCALE_STEP_G } from "../../feed/moisture-test.ts";
import type { Issue } from "../../limits.ts";
import type { ReadingDoc } from "../work-docs.ts";
import { notAhead } from "./issue.ts";

function weighingIssues({ weighings }: ReadingDoc): Issue[] {
  if (!weighings) return [];
  const { tareG, freshG, driedG } = weighings;
  const at = (key: string, message: string): Issue => {
    const path = `doc.weighings.${key}`;
    return { path, code: "out-of-range", message: `${path}: ${message}` };
  };
  if (!(freshG > tareG))
    return [at("freshG", `got ${freshG} g, must be above the empty dish's ${tareG} g: it is the full dish`)];
  const most = freshG + SCALE_STEP_G;
  return driedG.flatMap((now, i) =>
    now > tareG && now <= most
      ? []
      : [
          at(
            `driedG[${i}]`,
            `got ${now} g, must be above the empty dish's ${tareG} g and at most ${most} g, as it was fresh`,
          ),
        ],
  );
}

export function readingIssues(doc: ReadingDoc, nowMs: number): Issue[] {
  return [...notAhead({ path: "atUtc", utc: doc.atUtc }, nowMs), ...weighingIssues(doc)];
}
