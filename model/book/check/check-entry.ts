import type { Issue } from "../../limits.ts";
import type { Maybe, SpanDoc } from "../farm-docs.ts";
import type { BookDocs, BookKind } from "../kinds.ts";
import type { ForecastDoc } from "../work-docs.ts";
import { cutIssues } from "./cut.ts";
import { forecastIssues, reissued } from "./forecast.ts";
import { notAhead, notBefore } from "./issue.ts";
import { lotIssues } from "./lot.ts";
import { readingIssues } from "./reading.ts";

const spans = (offUtc: Maybe<readonly SpanDoc[]>): Issue[] =>
  (offUtc ?? []).flatMap(({ fromUtc, toUtc }, i) =>
    notBefore({ path: `offUtc[${i}].toUtc`, utc: toUtc }, fromUtc, "its beginning"),
  );

type ChecksOf = { readonly [K in BookKind]?: (doc: BookDocs[K], nowMs: number) => Issue[] };

const CHECKS: ChecksOf = {
  machines: ({ offUtc }) => spans(offUtc),
  people: ({ offUtc }) => spans(offUtc),
  uploads: ({ fromUtc, toUtc }) => notBefore({ path: "toUtc", utc: toUtc }, fromUtc, "its first hour"),
  cuts: cutIssues,
  lots: lotIssues,
  readings: readingIssues,
  forecasts: forecastIssues,
  "learned-rates": ({ atUtc }, nowMs) => notAhead({ path: "atUtc", utc: atUtc }, nowMs),
};

/**
 * What no farm can have meant, across the keys of one document whose single values are all within their limits: done
 * before it was begun, stored before it was cut, weighed below the empty dish, measured next year.
 *
 * @param before the document as it stands in the book: what is wrong there already stops no other change of it
 * @returns issues with the path, the value and what it must be; none where nothing is wrong
 */
export function entryIssues<K extends BookKind>(
  kind: K,
  doc: BookDocs[K],
  nowMs: number,
  before?: BookDocs[K],
): Issue[] {
  const check = CHECKS[kind];
  if (check === undefined) return [];
  const there = before === undefined ? [] : check(before, nowMs);
  const fixed =
    kind === "forecasts" && before !== undefined ? reissued(before as ForecastDoc, doc as ForecastDoc) : [];
  return [
    ...fixed,
    ...check(doc, nowMs).filter(
      ({ path, message }) => !there.some((old) => old.path === path && old.message === message),
    ),
  ];
}
