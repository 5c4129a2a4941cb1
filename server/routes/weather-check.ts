import { createRoute, OpenAPIHono, z } from "@hono/zod-openapi";
import { limitBody, MAX_UPLOAD_BYTES } from "../limit-body.ts";
import { invalidRequest, sendProblem } from "../problem.ts";
import { badRequest, jsonOf, tooLarge } from "../schemas/error.ts";
import { uploadPlace, uploadQuery, weatherCheckAnswer } from "../schemas/weather-check.ts";
import { readUpload, type Upload } from "../uploads/read-upload.ts";
import type { WeatherCheck } from "../uploads/weather-check.ts";

/** What the model makes of a file: its series, or the questions and problems that stand before one. */
export type CheckUpload = (upload: Upload) => WeatherCheck;

const csvText = z.string().openapi({
  description:
    "Delimited text: as a weather station wrote it, or under the canonical column names (see /api/template.csv)",
});

export function weatherCheckRoutes(checkUpload: CheckUpload, template: string) {
  const app = new OpenAPIHono();
  app.openAPIRegistry.registerPath(
    createRoute({
      method: "post",
      path: "/api/weather/check",
      summary: "What a file of weather is understood as",
      description:
        "As text/csv the place stands in the query; in a form it stands in `mapping`. Each column comes back with its unit and what that rests on; what the file leaves open is a question, answered beside the file under its id.",
      request: {
        query: uploadQuery.partial(),
        body: {
          required: true,
          content: {
            "text/csv": { schema: csvText },
            "multipart/form-data": {
              schema: z.object({ file: z.string().openapi({ format: "binary" }), mapping: uploadPlace }),
            },
          },
        },
      },
      responses: {
        200: jsonOf(weatherCheckAnswer, "The series, or what stands before one"),
        400: badRequest,
        413: tooLarge,
      },
    }),
  );
  app.openAPIRegistry.registerPath(
    createRoute({
      method: "get",
      path: "/api/template.csv",
      summary: "A CSV file with the canonical column names and a few invented hours",
      responses: { 200: { description: "The template", content: { "text/csv": { schema: csvText } } } },
    }),
  );
  app.post("/api/weather/check", limitBody(MAX_UPLOAD_BYTES), async (c) => {
    const upload = await readUpload(c);
    if (!upload.ok) return sendProblem(c, 400, invalidRequest(upload.issues));
    return c.json(checkUpload(upload.value));
  });
  app.get("/api/template.csv", (c) =>
    c.body(template, 200, {
      "Content-Type": "text/csv; charset=utf-8",
      "Content-Disposition": 'attachment; filename="swathclock-weather.csv"',
    }),
  );
  return app;
}
