import type { z } from "@hono/zod-openapi";
import type { Context } from "hono";
import type { Issue, Outcome } from "../../model/limits.ts";
import { checkSite } from "../../model/weather/index.ts";
import { type FileText, fileText, isStationAnswer } from "../../model/weather/station/index.ts";
import { check } from "../check.ts";
import { readJson } from "../read-json.ts";
import { uploadPlace, uploadQuery } from "../schemas/weather-check.ts";

/** An uploaded file of weather as text, and the place it is for. */
export interface Upload extends z.infer<typeof uploadPlace>, FileText {}

const NUMBERS = new Set(["latitude", "longitude", "elevationM", "windHeightM"]);

/** A number written as text; what is no number stays text, so that the error can show it. */
function numberOrText(text: string): number | string {
  const value = Number(text);
  return text.trim() !== "" && Number.isFinite(value) ? value : text;
}

function placeFromQuery(query: Readonly<Record<string, string>>): Outcome<z.infer<typeof uploadPlace>> {
  const pairs = Object.entries(query);
  const given = Object.fromEntries(
    pairs
      .filter(([key]) => !isStationAnswer(key))
      .map(([key, text]) => [key, NUMBERS.has(key) ? numberOrText(text) : text]),
  );
  const answers = Object.fromEntries(pairs.filter(([key]) => isStationAnswer(key)));
  const flat = check(uploadQuery, given);
  if (!flat.ok) return flat;
  const { windHeightM, airTempC, dewPointC, rainMm, ...site } = flat.value;
  const issues = checkSite(site, "");
  if (issues.length > 0) return { ok: false, issues };
  return { ok: true, value: { site, windHeightM, airTempC, dewPointC, rainMm, answers } };
}

function placeFromMapping(mapping: string): Outcome<z.infer<typeof uploadPlace>> {
  const json = readJson(mapping, "mapping");
  const place = json.ok ? check(uploadPlace, json.value) : json;
  if (place.ok) {
    const issues = checkSite(place.value.site, "mapping.site");
    return issues.length > 0 ? { ok: false, issues } : place;
  }
  const under = (path: string) => (path === "" || path === "mapping" ? "mapping" : `mapping.${path}`);
  return { ok: false, issues: place.issues.map((issue) => ({ ...issue, path: under(issue.path) })) };
}

function refuse(...issues: Issue[]): Outcome<never> {
  return { ok: false, issues };
}

function join(text: Outcome<FileText>, place: Outcome<z.infer<typeof uploadPlace>>): Outcome<Upload> {
  if (text.ok && place.ok) return { ok: true, value: { ...place.value, ...text.value } };
  return refuse(...(text.ok ? [] : text.issues), ...(place.ok ? [] : place.issues));
}

async function fromForm(c: Context): Promise<Outcome<Upload>> {
  const form = await c.req.formData().catch(() => null);
  if (form === null) {
    return refuse({ path: "", code: "bad-form", message: "the body: not a readable multipart form" });
  }
  const file = form.get("file");
  const mapping = form.get("mapping");
  const issues: Issue[] = [];
  if (file === null)
    issues.push({ path: "file", code: "missing", message: "file: missing; must be a CSV file" });
  if (typeof mapping !== "string") {
    const message = "mapping: missing; must be JSON with site and windHeightM";
    issues.push({ path: "mapping", code: "missing", message });
  }
  if (file === null || typeof mapping !== "string") return refuse(...issues);
  const value =
    typeof file === "string"
      ? { text: file, encoding: "utf-8" as const }
      : fileText(await file.arrayBuffer());
  return join({ ok: true, value }, placeFromMapping(mapping));
}

/** The upload of a request: text/csv with the place as query parameters, or a form with `file` and `mapping`. */
export async function readUpload(c: Context): Promise<Outcome<Upload>> {
  const type = (c.req.header("content-type") ?? "").split(";")[0]?.trim().toLowerCase();
  if (type === "multipart/form-data") return fromForm(c);
  if (type === "text/csv" || type === "text/plain") {
    return join({ ok: true, value: fileText(await c.req.arrayBuffer()) }, placeFromQuery(c.req.query()));
  }
  const message = `content-type: got "${type ?? ""}", must be text/csv or multipart/form-data`;
  return refuse({ path: "content-type", code: "unknown-value", message });
}
