import type { Issue, Outcome } from "../model/limits.ts";
import { excerpt } from "../model/weather/index.ts";

/** Names that reach into every JavaScript object; no request has a use for them. */
const FORBIDDEN_KEYS = new Set(["__proto__", "constructor", "prototype"]);
const MAX_DEPTH = 12;
/** Objects and arrays in one request: 200 members of ten columns are 2200. */
export const MAX_PARTS = 10_000;
/** Items in one array: two years of hours are 17 568. */
const MAX_ITEMS = 20_000;

/** How long the longest list may be, and how deep the nesting. */
export interface JsonShape {
  readonly items: number;
  readonly depth: number;
}
const REQUEST_SHAPE: JsonShape = { items: MAX_ITEMS, depth: MAX_DEPTH };

/** Joins a path as the error shape writes it: `weather.hours.airTempC[3]`. */
export function joinPath(parts: readonly PropertyKey[]): string {
  let path = "";
  for (const part of parts) {
    if (typeof part === "number") path += `[${part}]`;
    else path += path === "" ? String(part) : `.${String(part)}`;
  }
  return path;
}

interface Part {
  readonly value: object;
  readonly path: readonly PropertyKey[];
}

/**
 * What no schema should have to meet: names that reach into objects, bottomless nesting, endless lists.
 * Without recursion, so that the nesting itself cannot exhaust the stack.
 */
function structureIssues(root: unknown, maxParts: number, { items, depth }: JsonShape): Issue[] {
  if (typeof root !== "object" || root === null) return [];
  const stack: Part[] = [{ value: root, path: [] }];
  let parts = 0;
  for (let part = stack.pop(); part !== undefined; part = stack.pop()) {
    parts += 1;
    const path = joinPath(part.path);
    if (parts > maxParts) {
      return [
        {
          path: "",
          code: "too-many-parts",
          message: `the request has more than ${maxParts} objects and lists`,
        },
      ];
    }
    if (part.path.length > depth) {
      return [{ path, code: "too-deep", message: `${path}: nested deeper than ${depth} levels` }];
    }
    if (Array.isArray(part.value) && part.value.length > items) {
      const message = `${path}: got ${part.value.length} items, must be at most ${items}`;
      return [{ path, code: "too-many", message }];
    }
    const entries = Array.isArray(part.value) ? part.value.entries() : Object.entries(part.value);
    for (const [key, value] of entries) {
      if (typeof key === "string" && FORBIDDEN_KEYS.has(key)) {
        const at = joinPath([...part.path, key]);
        return [
          { path: at, code: "forbidden-key", message: `${at}: the key "${key}" is not allowed anywhere` },
        ];
      }
      if (typeof value === "object" && value !== null) stack.push({ value, path: [...part.path, key] });
    }
  }
  return [];
}

/** Text as JSON, with the structure checked; what the values mean is for the schemas. */
export function readJson(
  text: string,
  path = "",
  maxParts = MAX_PARTS,
  shape = REQUEST_SHAPE,
): Outcome<unknown> {
  if (text.trim() === "") {
    const message = `${path === "" ? "the request" : path}: empty; must be one JSON object`;
    return { ok: false, issues: [{ path, code: "empty", message }] };
  }
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    // The parser quotes the text it stopped at: from a binary file that is nothing a screen can show.
    const reason = error instanceof Error ? excerpt(error.message, 200) : "not JSON";
    return { ok: false, issues: [{ path, code: "invalid-json", message: `not valid JSON: ${reason}` }] };
  }
  const issues = structureIssues(value, maxParts, shape);
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value };
}
