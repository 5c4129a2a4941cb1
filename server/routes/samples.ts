import { createRoute, OpenAPIHono } from "@hono/zod-openapi";
import type { Sample } from "../samples.ts";
import { jsonOf } from "../schemas/error.ts";
import { samplesSchema } from "../schemas/samples.ts";

export function sampleRoutes(samples: readonly Sample[]) {
  const app = new OpenAPIHono();
  app.openAPIRegistry.registerPath(
    createRoute({
      method: "get",
      path: "/api/samples",
      summary: "Invented spells of weather for the demo farm",
      responses: { 200: jsonOf(samplesSchema, "The samples, each with its whole series") },
    }),
  );
  app.get("/api/samples", (c) => c.json(samples));
  return app;
}
