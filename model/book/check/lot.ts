import type { StoreKey } from "../../harvest/keys.ts";
import type { Issue } from "../../limits.ts";
import type { LotDoc } from "../work-docs.ts";
import { notAhead, notBefore } from "./issue.ts";

const SILOS: readonly StoreKey[] = ["bunker", "bag", "stave", "oxygen-limiting"];

/** What its route cannot be: hay in a silo, film on what is no wrapped bale. */
function routeIssues({ route, store, wrappedUtc }: LotDoc): Issue[] {
  const at = (path: string, rest: string): Issue => ({
    path: `doc.${path}`,
    code: "not-of-its-route",
    message: `doc.${path}: ${rest}`,
  });
  return [
    ...(route === "dry-hay" && store && SILOS.includes(store)
      ? [at("store", `got "${store}", must be left out or "pile" of dry hay: where it lies is its place`)]
      : []),
    ...(wrappedUtc && route !== "wrapped-bales"
      ? [at("wrappedUtc", `got ${wrappedUtc}, must be left out of "${route}": film is on wrapped bales`)]
      : []),
  ];
}

/** Papers of a sample that the lot never had. */
function strayResults({ tests, results }: LotDoc): Issue[] {
  const known = (tests ?? []).map(({ id }) => id);
  return (results ?? []).flatMap(({ testId }, i) => {
    if (!testId || known.includes(testId)) return [];
    const path = `doc.results[${i}].testId`;
    const message = `${path}: got "${testId}", must be the id of one of the lot's tests, or left out`;
    return [{ path, code: "unknown-reference", message }];
  });
}

/** What happened to a lot, in its order and not ahead. Stored is when it was baled or filled: film and waits count from it. */
export function lotIssues(doc: LotDoc, nowMs: number): Issue[] {
  const { storedUtc, wrappedUtc, openUtc, openedUtc, finishedUtc } = doc;
  const moments = { storedUtc, wrappedUtc, openedUtc, finishedUtc };
  const stored = "it was stored";
  return [
    ...routeIssues(doc),
    ...strayResults(doc),
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
