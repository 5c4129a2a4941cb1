import { readdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import type { z } from "@hono/zod-openapi";
import { check } from "./check.ts";
import { readJson } from "./read-json.ts";
import { sampleSchema } from "./schemas/samples.ts";

export type Sample = z.infer<typeof sampleSchema>;

/**
 * The samples of a folder in the order of their file names, each held to the same schema as an upload.
 *
 * @throws Error naming the file and what is wrong with it: a broken sample should stop the start, not a user
 */
export async function readSamples(folder: string): Promise<Sample[]> {
  const names = (await readdir(folder)).filter((name) => name.endsWith(".json")).sort();
  return Promise.all(
    names.map(async (name) => {
      const json = readJson(await readFile(join(folder, name), "utf8"));
      const sample = json.ok ? check(sampleSchema, json.value) : json;
      if (sample.ok) return sample.value;
      throw new Error(`${name}: ${sample.issues.map((issue) => issue.message).join("; ")}`);
    }),
  );
}
