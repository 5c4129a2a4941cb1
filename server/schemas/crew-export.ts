import { z } from "@hono/zod-openapi";
import { CREW_COUNTS, CREW_LIMITS } from "../../model/crew/index.ts";
import { isKnownTimeZone } from "../../model/weather/index.ts";
import { called, cancelledVisit, crewJob, op, text, whole } from "./crew-parts.ts";
import { limited, listOf, utcTime } from "./parts.ts";

/** What a calendar or a table is made of: an answer, or as much of it. The rest of an answer is not read. */
export const planToExport = z
  .looseObject({
    jobs: listOf(crewJob, CREW_COUNTS.previousJobs),
    revision: limited(CREW_LIMITS.revision)
      .refine(Number.isInteger, { message: "must be a whole number", params: { code: "not-whole" } })
      .optional(),
    timeZone: z
      .string()
      .refine(isKnownTimeZone, { error: "must be a time zone name such as America/Chicago or UTC" })
      .optional(),
    nowUtc: utcTime.optional(),
    changes: z
      .array(z.looseObject({ fieldId: whole, op, fromUtc: utcTime.nullable(), toUtc: utcTime.nullable() }))
      .optional(),
    cancelled: listOf(cancelledVisit, CREW_COUNTS.previousJobs).optional(),
    left: z
      .array(z.looseObject({ fieldId: whole, why: whole.optional(), mownUtc: utcTime.nullish() }))
      .optional(),
    replay: z.array(z.looseObject({ fieldId: z.string(), atRisk: z.boolean().optional() })).optional(),
    names: z
      .looseObject({
        fields: called.optional(),
        machines: called.optional(),
        people: called.optional(),
        gone: called.optional(),
      })
      .optional(),
    impossible: z.array(z.looseObject({ fieldId: whole, op })).optional(),
    planId: text(CREW_COUNTS.idLength).optional(),
    title: text(CREW_COUNTS.nameLength).optional(),
  })
  .superRefine(({ jobs, cancelled = [] }, context) => {
    const seen = new Set<string>();
    const add = (path: readonly [string, number, string], code: string, message: string) =>
      context.addIssue({ code: "custom", path: [...path], params: { code }, message });
    const checkEnd = (list: string, i: number, startUtc: string, endUtc: string) => {
      if (Date.parse(endUtc) > Date.parse(startUtc)) return;
      add([list, i, "endUtc"], "out-of-order", `must be later than startUtc (${startUtc})`);
    };
    jobs.forEach(({ fieldId, op, startUtc, endUtc }, i) => {
      checkEnd("jobs", i, startUtc, endUtc);
      const visit = JSON.stringify([fieldId, op]);
      if (seen.has(visit)) add(["jobs", i, "op"], "double", `must stand once for "${fieldId}"`);
      seen.add(visit);
    });
    cancelled.forEach(({ startUtc, endUtc }, i) => {
      if (endUtc !== undefined) checkEnd("cancelled", i, startUtc, endUtc);
    });
  })
  .openapi("CrewPlanToExport");
