import { createRoute, OpenAPIHono } from "@hono/zod-openapi";
import type { Context } from "hono";
import type { CrewPlanAnswer, CrewPlanRequest } from "../../model/crew/index.ts";
import { crewVerb } from "../crew/crew-verb.ts";
import { type PlanToExport, planCalendar, planCsv } from "../crew/export.ts";
import { limitBody, MAX_JSON_BYTES, MAX_UPLOAD_BYTES } from "../limit-body.ts";
import { sendProblem } from "../problem.ts";
import { planToExport } from "../schemas/crew-export.ts";
import { crewPlanAnswer } from "../schemas/crew-plan.ts";
import { badRequest, failed, tooLarge } from "../schemas/error.ts";
import { type Answering, ask } from "../verb.ts";
import { verbRoute } from "./verb-route.ts";

const PATH = "/api/crew-plan";

interface Written {
  readonly path: string;
  readonly summary: string;
  readonly type: string;
  readonly fileName: string;
  readonly write: (plan: PlanToExport) => string | Promise<string>;
}

/** A POST that takes a plan and gives a file. */
function writtenPlan({ path, summary, type, fileName, write }: Written) {
  const app = new OpenAPIHono();
  app.openAPIRegistry.registerPath(
    createRoute({
      method: "post",
      path,
      summary,
      request: { body: { required: true, content: { "application/json": { schema: planToExport } } } },
      responses: {
        200: { description: summary, content: { [type]: { schema: { type: "string" } } } },
        400: badRequest,
        413: tooLarge,
        500: failed,
      },
    }),
  );
  app.post(path, limitBody(MAX_JSON_BYTES), async (c: Context) => {
    const plan = await ask(
      {
        schema: planToExport,
        answer: async (value: PlanToExport) => ({ ok: true as const, value: await write(value) }),
      },
      await c.req.arrayBuffer(),
    );
    if (!plan.ok) return sendProblem(c, 400, plan.body);
    return c.body(String(plan.value), 200, {
      "Content-Type": `${type}; charset=utf-8`,
      "Content-Disposition": `attachment; filename="${fileName}"`,
    });
  });
  return app;
}

export function crewPlanRoutes(
  crewPlan: Answering<CrewPlanRequest, CrewPlanAnswer>,
  nowMs: () => number = Date.now,
  /** SEQUENCE of a file, above what calendars have of the same plan. */
  sequence: (plan: PlanToExport) => Promise<number> = async ({ revision }) => revision ?? 0,
) {
  const app = new OpenAPIHono();
  app.route(
    "/",
    verbRoute({
      path: PATH,
      summary:
        "Who mows, bales and wraps which field when: the plan, its proof, and its replay over the members",
      verb: crewVerb(crewPlan),
      answerSchema: crewPlanAnswer,
      maxBytes: MAX_UPLOAD_BYTES,
    }),
  );
  app.route(
    "/",
    writtenPlan({
      path: `${PATH}/calendar`,
      summary: "A crew plan as iCalendar",
      type: "text/calendar",
      fileName: "crew-plan.ics",
      write: async (plan) => planCalendar({ ...plan, revision: await sequence(plan) }, nowMs()),
    }),
  );
  app.route(
    "/",
    writtenPlan({
      path: `${PATH}/csv`,
      summary: "A crew plan as a table",
      type: "text/csv",
      fileName: "crew-plan.csv",
      write: planCsv,
    }),
  );
  return app;
}
