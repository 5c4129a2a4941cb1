import { z } from "@hono/zod-openapi";
import type { Limit } from "../../model/limits.ts";
import { limitInWords } from "../../model/limits.ts";

/** An object with these keys and no others; a stranger's error lists the known ones. */
export function record<T extends z.core.$ZodLooseShape>(shape: T) {
  const known = `known here: ${Object.keys(shape).join(", ")}`;
  return z.strictObject(shape, {
    error: (issue) => (issue.code === "unrecognized_keys" ? known : undefined),
  });
}

/** A number inside a limit of the model. */
export function limited(limit: Limit) {
  const error = limitInWords(limit);
  const above = limit.minExcluded
    ? z.number().gt(limit.min, { error })
    : z.number().gte(limit.min, { error });
  return above.lte(limit.max, { error });
}

/** A whole number inside a limit. */
export function whole(limit: Limit) {
  const message = "must be a whole number";
  return limited(limit).refine(Number.isInteger, { message, params: { code: "not-whole" } });
}

export function listOf<T extends z.ZodType>(item: T, max: number) {
  return z.array(item).max(max, { error: `must have at most ${max}` });
}

/** A moment: ISO 8601, UTC, ending in Z. */
export const utcTime = z
  .string()
  .refine((text) => isUtcTime(text), {
    message: "must be a time in ISO 8601 UTC ending in Z, as 2026-07-01T15:00:00Z",
    params: { code: "bad-time" },
  })
  .openapi({ format: "date-time", example: "2026-07-01T15:00:00Z" });

const UTC_SHAPE = /^(\d{4}-\d{2}-\d{2}T\d{2}:\d{2})(:\d{2}(\.\d{1,3})?)?Z$/;

/** True for a moment that exists: February 30 has the right shape and is refused. */
export function isUtcTime(text: string): boolean {
  const shape = UTC_SHAPE.exec(text);
  if (shape === null) return false;
  const ms = Date.parse(text);
  return Number.isFinite(ms) && new Date(ms).toISOString().slice(0, 16) === shape[1];
}

/** Seed of every draw: the same seed and the same request give the same answer. */
export const seed = whole({ min: 0, max: 4_294_967_295, unit: "" });

/** Complaints about one column stop here: a column of text would otherwise make one for every hour. */
const MAX_COLUMN_ISSUES = 10;

/**
 * One value an hour. Checked by hand because a season of hours and 200 members are millions of values;
 * which values are plausible is for the model's own checks.
 */
function column<T>(
  maxHours: number,
  fits: (value: unknown) => boolean,
  must: string,
  items: { type: ("number" | "string" | "null")[] },
) {
  return z
    .custom<readonly T[]>()
    .superRefine((value: unknown, context) => {
      const complain = (message: string, code: string, path: PropertyKey[]) =>
        context.addIssue({ code: "custom", message, params: { code }, path });
      if (!Array.isArray(value))
        return complain(
          "must be a list with one value an hour",
          value === undefined ? "missing" : "wrong-type",
          [],
        );
      if (value.length > maxHours) return complain(`must have at most ${maxHours} hours`, "too-many", []);
      let issues = 0;
      for (let i = 0; i < value.length && issues < MAX_COLUMN_ISSUES; i += 1) {
        if (fits(value[i])) continue;
        issues += 1;
        complain(must, "wrong-type", [i]);
      }
    })
    .openapi({ type: "array", items, maxItems: maxHours });
}

/** Numbers, with null for what is missing: missing data is never 0. */
export function numberColumn(maxHours: number) {
  const fits = (value: unknown) => value === null || (typeof value === "number" && Number.isFinite(value));
  return column<number | null>(maxHours, fits, "must be a number, or null where missing", {
    type: ["number", "null"],
  });
}

/** Text an hour, as the hours' own labels. */
export function textColumn(maxHours: number) {
  const fits = (value: unknown) => typeof value === "string";
  return column<string>(maxHours, fits, "must be text", { type: ["string"] });
}

/** One of these words an hour, or null. */
export function wordColumn<W extends string>(maxHours: number, words: readonly W[]) {
  const known = new Set<unknown>(words);
  const must = `must be null or one of ${words.join(", ")}`;
  return column<W | null>(maxHours, (value) => value === null || known.has(value), must, {
    type: ["string", "null"],
  });
}

/** A reading of the farm's clock. */
export const localTime = (shape: RegExp, example: string) =>
  z
    .string()
    .refine((text) => shape.test(text), {
      message: `must be a local time of day as "${example}"`,
      params: { code: "bad-time" },
    })
    .openapi({ example });
