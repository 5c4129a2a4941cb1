import { z } from "@hono/zod-openapi";

/** The one error shape. */
export const errorSchema = z
  .strictObject({
    error: z.string(),
    message: z.string(),
    issues: z.array(z.strictObject({ path: z.string(), code: z.string(), message: z.string() })),
  })
  .openapi("Error");

/** One JSON answer as the OpenAPI document describes it. */
export function jsonOf<T extends z.ZodType>(schema: T, description: string) {
  return { description, content: { "application/json": { schema } } };
}

export const badRequest = jsonOf(errorSchema, "What was wrong with the request, item by item");
export const tooLarge = jsonOf(errorSchema, "The body is over the limit");
export const failed = jsonOf(errorSchema, "The answer could not be computed; the server's log says why");
export const busy = jsonOf(errorSchema, "Too many large questions are waiting; ask again later");
