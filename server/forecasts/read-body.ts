import type { z } from "@hono/zod-openapi";
import { UpstreamFailure } from "./failure.ts";

/**
 * A JSON body against a schema. A body that does not parse is worth a retry: a failure after a service began to stream
 * is appended as text to an answer of status 200.
 */
export function readBody<T>(text: string, schema: z.ZodType<T>): T {
  let json: unknown;
  try {
    json = JSON.parse(text);
  } catch {
    const message = "the answer is not whole JSON";
    throw new UpstreamFailure({ code: "unreadable", message, retryHelps: true });
  }
  const result = schema.safeParse(json);
  if (result.success) return result.data;
  const issue = result.error.issues[0];
  const path = issue?.path.map(String).join(".") || "the answer";
  const message = `${path}: not of the documented shape (${issue?.message ?? "unknown"})`;
  throw new UpstreamFailure({ code: "unreadable", message });
}

/** The error object of a body, or undefined: bodies of errors may be anything. */
export function readProblem<T>(text: string, schema: z.ZodType<T>): T | undefined {
  try {
    return schema.safeParse(JSON.parse(text)).data;
  } catch {
    return undefined;
  }
}
