import { createRoute, OpenAPIHono } from "@hono/zod-openapi";
import { modelCatalogue } from "../model-catalogue.ts";
import { jsonOf } from "../schemas/error.ts";
import { modelAnswer } from "../schemas/model.ts";

export function modelRoutes(modelVersion: string) {
  const catalogue = modelCatalogue(modelVersion);
  const app = new OpenAPIHono();
  app.openAPIRegistry.registerPath(
    createRoute({
      method: "get",
      path: "/api/model",
      summary: "Words, limits, bands and coefficients, each with its origin",
      responses: { 200: jsonOf(modelAnswer, "What the model computes with") },
    }),
  );
  app.get("/api/model", (c) => c.json(catalogue));
  return app;
}
