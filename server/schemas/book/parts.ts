import { z } from "@hono/zod-openapi";
import { BOOK_COUNTS, BOOK_ID } from "../../../model/book/index.ts";
import { CONDITIONINGS, SOIL_CLASSES, SWATH_LIMITS } from "../../../model/drying/index.ts";
import { limited, record, utcTime } from "../parts.ts";

/** Signs that no screen, table or calendar can show; a new line and a tab are none of them in a note. */
const UNSHOWABLE = /[\p{Cc}\p{Cs}\u2028\u2029]/u;
const UNSHOWABLE_IN_NOTE = /[^\P{Cc}\n\r\t]|\p{Cs}/u;

function text(max: number, unshowable: RegExp) {
  return z
    .string()
    .max(max, { error: `must have at most ${max} characters` })
    .refine((value) => !unshowable.test(value), {
      message: "must hold no control characters",
      params: { code: "control-character" },
    });
}

const filled = (max: number) =>
  text(max, UNSHOWABLE).refine((value) => value.trim() !== "", {
    message: "must not be empty",
    params: { code: "empty" },
  });

export const nameText = filled(BOOK_COUNTS.name);
export const line = text(BOOK_COUNTS.line, UNSHOWABLE);
export const link = text(BOOK_COUNTS.link, UNSHOWABLE);
export const notes = text(BOOK_COUNTS.note, UNSHOWABLE_IN_NOTE).nullish();

export const bookId = z
  .string()
  .regex(BOOK_ID, {
    error: `must be 1 to ${BOOK_COUNTS.id} letters, digits, points, underscores or hyphens, beginning with a letter or digit`,
  })
  .openapi({ example: "5f0c2a4e-6b8d-4a7e-9c1f-2d3e4f5a6b7c" });

/** A moment that may be unknown. */
export const maybeTime = utcTime.nullish();

export const habit = record({
  conditioning: z.enum(CONDITIONINGS).nullish(),
  coveredFraction: limited(SWATH_LIMITS.coveredFraction).nullish(),
  stubbleCm: limited(SWATH_LIMITS.stubbleCm).nullish(),
  soil: z.enum(SOIL_CLASSES).nullish(),
  dryingAgent: z.boolean().nullish(),
}).openapi("Habit");

/** JSON of another contract, kept as it was: the structure is checked where it is read, the meaning by its own verb. */
export const keptJson = z
  .custom<Readonly<Record<string, unknown>>>(
    (value) => typeof value === "object" && value !== null && !Array.isArray(value),
    { error: "must be an object" },
  )
  .openapi({ type: "object", additionalProperties: true });
