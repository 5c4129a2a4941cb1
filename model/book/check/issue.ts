import type { Issue } from "../../limits.ts";
import { HOUR_MS } from "../../weather/clock.ts";
import type { Maybe } from "../farm-docs.ts";

/** So far ahead a clock may be wrong, h: what is said to be done later than that is a slip of the hand. */
export const AHEAD_H = 24;

/** A moment of a document, by its path in it. */
export interface Moment {
  readonly path: string;
  readonly utc: Maybe<string>;
}

/** The issue for a moment that lies before another, which `what` names: "it was stored"; none where one is not known. */
export function notBefore({ path, utc }: Moment, than: Maybe<string>, what: string): Issue[] {
  if (!utc || !than || !(Date.parse(utc) < Date.parse(than))) return [];
  const message = `doc.${path}: got ${utc}, must not be before ${what}, ${than}`;
  return [{ path: `doc.${path}`, code: "out-of-order", message }];
}

/** The issue for what is said to have happened, and lies ahead. */
export function notAhead({ path, utc }: Moment, nowMs: number): Issue[] {
  const most = nowMs + AHEAD_H * HOUR_MS;
  if (!utc || !(Date.parse(utc) > most)) return [];
  const now = new Date(nowMs).toISOString();
  const message = `doc.${path}: got ${utc}, must be at most ${AHEAD_H} h after now, ${now}`;
  return [{ path: `doc.${path}`, code: "in-the-future", message }];
}
