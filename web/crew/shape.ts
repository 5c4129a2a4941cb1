import type { Issue } from "../../model/limits.ts";

/** What a value of a file must look like before the model's checks may read it. */
export type Shape = (value: unknown, path: string) => readonly Issue[];

const MOST_SAID = 60;

function said(value: unknown): string {
  const text = value === undefined ? "nothing" : (JSON.stringify(value) ?? typeof value);
  return text.length > MOST_SAID ? `${text.slice(0, MOST_SAID)} ...` : text;
}

function wrong(path: string, value: unknown, must: string): readonly Issue[] {
  const where = path === "" ? "the file" : path;
  return [{ path, code: "bad-type", message: `${where}: got ${said(value)}, must be ${must}` }];
}

const kind =
  (is: (value: unknown) => boolean, must: string): Shape =>
  (value, path) =>
    is(value) ? [] : wrong(path, value, must);

export const aText = kind((value) => typeof value === "string" && value !== "", "a text");
export const aNumber = kind((value) => Number.isFinite(value), "a number");
export const aFlag = kind((value) => typeof value === "boolean", "true or false");
export const aTime = kind(
  (value) =>
    typeof value === "string" && /^\d{4}-\d\d-\d\dT[\d:.]+Z$/.test(value) && !Number.isNaN(Date.parse(value)),
  "a time in UTC as 2026-07-01T05:00:00Z",
);
export const aClock = (clock: RegExp): Shape =>
  kind((value) => typeof value === "string" && clock.test(value), "a time of day as 07:00");
export const aName = (most: number): Shape =>
  kind(
    (value) => typeof value === "string" && value !== "" && value.length <= most,
    `a text of 1 to ${most} characters`,
  );
export const anId = (most: number): Shape =>
  kind(
    (value) => typeof value === "string" && value !== "" && value.length <= most && !value.includes("|"),
    `a text of 1 to ${most} characters without |`,
  );

export const oneOf = (keys: readonly (string | number)[]): Shape =>
  kind((value) => keys.includes(value as string), `one of ${keys.join(", ")}`);

/** May be absent; with `orNull` also null. */
export const maybe =
  (shape: Shape, orNull = true): Shape =>
  (value, path) =>
    value === undefined || (orNull && value === null) ? [] : shape(value, path);

export const listOf =
  (item: Shape, most: number): Shape =>
  (value, path) => {
    if (!Array.isArray(value)) return wrong(path, value, "a list");
    if (value.length > most) return wrong(path, value.length, `a list of at most ${most}`);
    return value.flatMap((one, i) => item(one, `${path}[${i}]`));
  };

const isRecord = (value: unknown): value is Readonly<Record<string, unknown>> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

const under = (path: string, key: string) => (path === "" ? key : `${path}.${key}`);

/** An object of these keys and no others; a key that nobody reads may be a slip of one that counts. */
export const record =
  (shapes: Readonly<Record<string, Shape>>): Shape =>
  (value, path) => {
    if (!isRecord(value)) return wrong(path, value, "an object");
    const strangers = Object.keys(value).filter((key) => !Object.hasOwn(shapes, key));
    return [
      ...strangers.map((key) => ({
        path: under(path, key),
        code: "unknown-key",
        message: `${under(path, key)}: nothing of this name is known here`,
      })),
      ...Object.entries(shapes).flatMap(([key, shape]) => shape(value[key], under(path, key))),
    ];
  };

export const everyKey =
  (shape: Shape, most: number): Shape =>
  (value, path) => {
    if (!isRecord(value)) return wrong(path, value, "an object");
    const entries = Object.entries(value);
    if (entries.length > most) return wrong(path, entries.length, `an object of at most ${most} keys`);
    return entries.flatMap(([key, one]) => shape(one, under(path, key)));
  };

/** Whatever else the object holds, these keys must be right. */
export const holding =
  (shapes: Readonly<Record<string, Shape>>): Shape =>
  (value, path) =>
    isRecord(value)
      ? Object.entries(shapes).flatMap(([key, shape]) => shape(value[key], under(path, key)))
      : wrong(path, value, "an object");
