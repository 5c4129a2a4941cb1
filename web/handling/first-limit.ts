import { type Animal, defaultTarget, NITRATE_TABLES, STRICTEST } from "../../model/feed/index.ts";
import { type Manner, numberText } from "../format/manner.ts";

/** Where the published tables begin to restrict, read as for pregnant cattle: the strictest computes, the spread is shown. */

const TENDER: Animal = { class: "beef-cow", kg: 600, pregnant: true };

export interface FirstLimit {
  /** ppm NO3-N of dry matter. */
  readonly ppm: number;
  /** Who stands behind it. */
  readonly by: string;
  /** The mildest of the tables. */
  readonly mostPpm: number;
}

export function firstLimit(): FirstLimit {
  const { ppm, table } = defaultTarget(TENDER, STRICTEST);
  const found = NITRATE_TABLES.find(({ key }) => key === table);
  const edges = NITRATE_TABLES.map(({ key }) => defaultTarget(TENDER, key).ppm);
  const by = found === undefined ? table : `${found.body}${found.year === null ? "" : `, ${found.year}`}`;
  return { ppm, by, mostPpm: Math.max(...edges) };
}

export function limitHint(limit: FirstLimit, numbers: Pick<Manner, "locale">): string {
  const ppm = (value: number) => numberText(value, 0, numbers);
  return `laboratory result; empty = not tested, and a strip is no test. Tables begin to restrict at ${ppm(limit.ppm)} (${limit.by}), which counts here; the mildest at ${ppm(limit.mostPpm)}`;
}
