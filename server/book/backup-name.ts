import { existsSync } from "node:fs";
import { parse } from "node:path";

/** "book-before-0002-dates-20260701T150000Z.sqlite" */
export function backupName(file: string, why: string, nowMs: number): string {
  const { name, ext } = parse(file);
  const stamp = new Date(nowMs).toISOString().slice(0, 19).replaceAll(/[-:]/g, "");
  return `${name}-before-${why}-${stamp}Z${ext}`;
}

/** The path, or the same with a number where a file of that name is there already. */
export function freePath(path: string): string {
  if (!existsSync(path)) return path;
  const { dir, name, ext } = parse(path);
  for (let n = 2; ; n += 1) {
    const next = `${dir}/${name}-${n}${ext}`;
    if (!existsSync(next)) return next;
  }
}
