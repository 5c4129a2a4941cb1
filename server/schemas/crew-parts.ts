import { z } from "@hono/zod-openapi";
import { CREW_OPS } from "../../model/crew/index.ts";
import { utcTime } from "./parts.ts";

/** What a plan's question, its answer and its files have in common. */

export const text = (max: number) =>
  z
    .string()
    .min(1, { error: "must not be empty" })
    .max(max, { error: `must have at most ${max} characters` });
export const op = z.enum(CREW_OPS);

export const crewJob = z
  .strictObject({
    fieldId: z.string(),
    op,
    machineId: z.string(),
    personId: z.string(),
    startUtc: utcTime,
    endUtc: utcTime,
  })
  .openapi("CrewJob");

export const called = z.record(z.string(), z.string());

export const cancelledVisit = z.looseObject({ fieldId: z.string(), op, startUtc: utcTime });
