import { createRoute, OpenAPIHono, z } from "@hono/zod-openapi";
import { jsonOf } from "../schemas/error.ts";

const healthSchema = z
  .strictObject({ status: z.literal("ok"), modelVersion: z.string(), uptimeS: z.number() })
  .openapi("Health");

export function healthRoutes(modelVersion: string, uptimeS: () => number) {
  const app = new OpenAPIHono();
  app.openAPIRegistry.registerPath(
    createRoute({
      method: "get",
      path: "/healthz",
      summary: "Whether the server answers",
      responses: { 200: jsonOf(healthSchema, "It does") },
    }),
  );
  app.get("/healthz", (c) =>
    c.json({ status: "ok", modelVersion, uptimeS: Math.round(uptimeS() * 10) / 10 }),
  );
  return app;
}
