import { z } from "@hono/zod-openapi";
import { CREW_OPS } from "../../model/crew/index.ts";
import { utcTime } from "./parts.ts";

/** What a plan's question, its answer and its files have in common. */

/**
 * Text of one line and of whole characters: neither half of a surrogate pair nor a control character has a place in a
 * calendar (RFC 5545, 3.3.11) or a table. Unicode breaks lines at U+2028 and U+2029 too (annex 14, class BK).
 */
export const whole = z
  .string()
  .refine((value) => !/\p{Cs}/u.test(value), {
    message: "must be text of whole characters, and holds half of one (a lone surrogate)",
    params: { code: "half-character" },
  })
  .refine((value) => !/[\p{Cc}\u2028\u2029]/u.test(value), {
    message: "must be one line, and holds a line break, a tab or another control character",
    params: { code: "control-character" },
  });

/** Text in which something can be seen: not blanks or signs without a shape alone. */
const shown = whole.refine((value) => value === "" || /[^\s\p{Cf}]/u.test(value), {
  message: "must not be blank",
  params: { code: "empty" },
});

export const text = (max: number) =>
  shown.min(1, { error: "must not be empty" }).max(max, { error: `must have at most ${max} characters` });
export const op = z.enum(CREW_OPS);

export const crewJob = z
  .strictObject({
    fieldId: whole,
    op,
    machineId: whole,
    personId: whole,
    startUtc: utcTime,
    endUtc: utcTime,
  })
  .openapi("CrewJob");

export const called = z.record(whole, shown);

export const cancelledVisit = z.looseObject({
  fieldId: whole,
  op,
  startUtc: utcTime,
  endUtc: utcTime.optional(),
});
