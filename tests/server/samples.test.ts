import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test } from "vitest";
import { readSamples } from "../../server/samples.ts";
import { samplesSchema } from "../../server/schemas/samples.ts";
import { fakeApp } from "../support/app.ts";
import { ROOT } from "../support/root.ts";

test("every shipped sample passes the schema of an upload, and the API gives them all", async () => {
  const samples = await readSamples(join(ROOT, "weather-samples"));
  expect(samples.length).toBeGreaterThanOrEqual(4);
  expect(new Set(samples.map(({ id }) => id)).size).toBe(samples.length);
  const response = await fakeApp({ samples }).request("/api/samples", {
    headers: { "accept-encoding": "gzip" },
  });
  expect(response.headers.get("content-encoding")).toBe("gzip");
  const plain = await fakeApp({ samples }).request("/api/samples");
  expect(samplesSchema.parse(await plain.json())).toEqual(samples);
});

test("a broken sample stops the start, by name", async () => {
  const folder = mkdtempSync(join(tmpdir(), "swathclock-samples-"));
  writeFileSync(join(folder, "bad.json"), '{"id":"bad","title":"Bad"}');
  await expect(readSamples(folder)).rejects.toThrow("bad.json: series: missing; must be an object");
  rmSync(folder, { recursive: true, force: true });
});
