import { createRoute, OpenAPIHono, type z } from "@hono/zod-openapi";
import { limitBody, MAX_JSON_BYTES } from "../limit-body.ts";
import { sendProblem } from "../problem.ts";
import { badRequest, busy, failed, jsonOf, tooLarge } from "../schemas/error.ts";
import { ask, jsonOfAnswer, type Verb } from "../verb.ts";

interface VerbRoute<Question, Answer> {
  readonly path: string;
  readonly summary: string;
  readonly verb: Verb<Question, Answer>;
  readonly answerSchema: z.ZodType;
  readonly maxBytes?: number;
}

/** A POST that takes the verb's JSON and gives its answer. */
export function verbRoute<Question, Answer>({
  path,
  summary,
  verb,
  answerSchema,
  maxBytes = MAX_JSON_BYTES,
}: VerbRoute<Question, Answer>) {
  const app = new OpenAPIHono();
  app.openAPIRegistry.registerPath(
    createRoute({
      method: "post",
      path,
      summary,
      request: { body: { required: true, content: { "application/json": { schema: verb.schema } } } },
      responses: {
        200: jsonOf(answerSchema, summary),
        400: badRequest,
        413: tooLarge,
        500: failed,
        503: busy,
      },
    }),
  );
  app.post(path, limitBody(maxBytes), async (c) => {
    const reply = await ask(verb, await c.req.arrayBuffer(), c.req.raw.signal);
    return reply.ok
      ? c.body(jsonOfAnswer(reply.value), 200, { "Content-Type": "application/json" })
      : sendProblem(c, 400, reply.body);
  });
  return app;
}
