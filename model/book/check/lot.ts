import type { Issue } from "../../limits.ts";
import type { LotDoc } from "../work-docs.ts";
import { notAhead, notBefore } from "./issue.ts";

/** What happened to a lot, in its order and not ahead. Stored is when it was baled or filled: film and waits count from it. */
export function lotIssues(doc: LotDoc, nowMs: number): Issue[] {
  const { storedUtc, wrappedUtc, openUtc, openedUtc, finishedUtc } = doc;
  const moments = { storedUtc, wrappedUtc, openedUtc, finishedUtc };
  const stored = "it was stored";
  return [
    ...notBefore({ path: "wrappedUtc", utc: wrappedUtc }, storedUtc, stored),
    ...notBefore({ path: "openUtc", utc: openUtc }, storedUtc, stored),
    ...notBefore({ path: "openedUtc", utc: openedUtc }, storedUtc, stored),
    ...notBefore({ path: "finishedUtc", utc: finishedUtc }, storedUtc, stored),
    ...notBefore({ path: "finishedUtc", utc: finishedUtc }, openedUtc, "it was opened"),
    ...Object.entries(moments).flatMap(([path, utc]) => notAhead({ path, utc }, nowMs)),
    ...(doc.tests ?? []).flatMap(({ sentUtc, expectedUtc, resultUtc }, i) => {
      const at = (key: string, utc: typeof sentUtc) => ({ path: `tests[${i}].${key}`, utc });
      const sent = "it was sent";
      return [
        ...notBefore(at("expectedUtc", expectedUtc), sentUtc, sent),
        ...notBefore(at("resultUtc", resultUtc), sentUtc, sent),
        ...notAhead(at("sentUtc", sentUtc), nowMs),
        ...notAhead(at("resultUtc", resultUtc), nowMs),
      ];
    }),
    ...(doc.results ?? []).flatMap(({ atUtc }, i) =>
      notAhead({ path: `results[${i}].atUtc`, utc: atUtc }, nowMs),
    ),
    ...(doc.heating ?? []).flatMap(({ atUtc }, i) =>
      notAhead({ path: `heating[${i}].atUtc`, utc: atUtc }, nowMs),
    ),
  ];
}
