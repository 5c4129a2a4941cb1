import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { DrydownRequest } from "../../model/drying/request.ts";
import type { WindowsRequest } from "../../model/harvest/request.ts";

function example<T>(name: string): T {
  return JSON.parse(
    readFileSync(fileURLToPath(new URL(`../../server/examples/${name}`, import.meta.url)), "utf8"),
  );
}

/** The shipped example requests, fresh for each caller. */
export const exampleDrydown = () => example<DrydownRequest>("drydown.json");
export const exampleWindows = () => example<WindowsRequest>("windows.json");

/** A copy of a value with one place changed; `path` as in an error ("swath.crop", "hours.airTempC.3"). */
export function changed(value: object, path: string, to: unknown): unknown {
  const copy: unknown = structuredClone(value);
  const keys = path.split(".");
  const last = keys.pop() ?? "";
  let place = copy;
  for (const key of keys) {
    place = typeof place === "object" && place !== null ? Reflect.get(place, key) : undefined;
  }
  if (typeof place !== "object" || place === null) throw new Error(`no such place: ${path}`);
  if (to === undefined) Reflect.deleteProperty(place, last);
  else Reflect.set(place, last, to);
  return copy;
}
