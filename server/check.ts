import type { z } from "@hono/zod-openapi";
import type { Issue, Outcome } from "../model/limits.ts";
import { joinPath } from "./read-json.ts";

type ZodIssue = z.core.$ZodIssue;

const KINDS: Readonly<Record<string, string>> = {
  array: "a list",
  boolean: "true or false",
  null: "null",
  number: "a number",
  object: "an object",
  record: "an object",
  string: "text",
  tuple: "a list",
  int: "a whole number",
};

/** A value as a sentence can carry it: short, and with its kind where the kind is the point. */
function show(value: unknown): string {
  if (value === null) return "null";
  if (Array.isArray(value)) {
    // A short list of plain values, as a band of moisture, is named; a long one or one of objects is counted.
    const { length } = value;
    const short =
      length > 0 && length <= 6 && value.every((item) => item === null || typeof item !== "object");
    const named = short ? `[${value.map((item) => JSON.stringify(item)).join(", ")}]` : "";
    return short && named.length <= 60 ? named : `a list of ${length}`;
  }
  if (typeof value === "object") return "an object";
  const text = typeof value === "string" ? JSON.stringify(value) : String(value);
  return text.length > 60 ? `${text.slice(0, 57)}...` : text;
}

function valueAt(root: unknown, path: readonly PropertyKey[]): unknown {
  let value: unknown = root;
  for (const key of path) {
    if (typeof value !== "object" || value === null || !Object.hasOwn(value, key)) return undefined;
    value = Reflect.get(value, key);
  }
  return value;
}

function toIssues(issue: ZodIssue, input: unknown): Issue[] {
  const path = joinPath(issue.path);
  const name = path === "" ? "the request" : path;
  const value = valueAt(input, issue.path);
  const got = `${name}: got ${show(value)}`;
  switch (issue.code) {
    case "unrecognized_keys":
      return issue.keys.map((key) => {
        const at = joinPath([...issue.path, key]);
        return { path: at, code: "unknown-key", message: `${at}: unknown key; ${issue.message}` };
      });
    case "invalid_key":
      return [{ path, code: "unknown-key", message: `${path}: unknown key` }];
    case "invalid_type": {
      const kind = KINDS[issue.expected] ?? issue.expected;
      if (value === undefined)
        return [{ path, code: "missing", message: `${name}: missing; must be ${kind}` }];
      return [{ path, code: "wrong-type", message: `${got}, must be ${kind}` }];
    }
    case "invalid_value":
      if (value === undefined) {
        return [
          { path, code: "missing", message: `${name}: missing; must be one of ${issue.values.join(", ")}` },
        ];
      }
      return [{ path, code: "unknown-value", message: `${got}, must be one of ${issue.values.join(", ")}` }];
    case "too_big":
    case "too_small":
      if (issue.origin === "array" || issue.origin === "string") {
        return [
          {
            path,
            code: issue.code === "too_big" ? "too-many" : "too-few",
            message: `${got}, ${issue.message}`,
          },
        ];
      }
      return [{ path, code: "out-of-range", message: `${got}, ${issue.message}` }];
    case "custom":
      if (value === undefined)
        return [{ path, code: "missing", message: `${name}: missing; ${issue.message}` }];
      return [{ path, code: String(issue.params?.code ?? "invalid"), message: `${got}, ${issue.message}` }];
    case "invalid_union":
      return unionIssues(issue, input);
    default:
      return [{ path, code: "invalid", message: `${got}, ${issue.message}` }];
  }
}

/** Of what may take several forms: what is wrong with the one whose kind it is of, else with the first. */
function unionIssues(issue: Extract<ZodIssue, { code: "invalid_union" }>, input: unknown): Issue[] {
  const [first] = issue.errors[0] ?? [];
  const words = issue.errors.flatMap((issues) =>
    issues.length === 1 && issues[0]?.code === "invalid_value" && issues[0].path.length === 0
      ? issues[0].values
      : [],
  );
  // Where every form is one word or number, all of them are named.
  if (first?.code === "invalid_value" && words.length === issue.errors.length) {
    return toIssues({ ...first, values: words, path: issue.path }, input);
  }
  const placed = issue.errors.map((issues) =>
    issues.map((one) => ({ ...one, path: [...issue.path, ...one.path] })),
  );
  const deeper = (one: ZodIssue) => one.path.length > issue.path.length || one.code === "unrecognized_keys";
  const meant = placed.find((issues) => issues.every(deeper));
  return (meant ?? placed[0] ?? []).flatMap((one) => toIssues(one, input));
}

/** A value against a schema: the typed value, or everything that was wrong, in the project's own words. */
export function check<T>(schema: z.ZodType<T>, input: unknown): Outcome<T> {
  const result = schema.safeParse(input);
  if (result.success) return { ok: true, value: result.data };
  return { ok: false, issues: result.error.issues.flatMap((issue) => toIssues(issue, input)) };
}
