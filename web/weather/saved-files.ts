import { del, get, set, update } from "idb-keyval";
import { readSource } from "../offline/kept.ts";
import type { WeatherSource } from "./source.ts";

/** Own files that this device remembers by name: a list of what there is, and each file under a key of its own. */

export type FileSource = Extract<WeatherSource, { readonly kind: "upload" }>;

export interface SavedFile {
  readonly name: string;
  readonly fromUtc: string;
  readonly hours: number;
}

const LIST = "swathclock.files";
/** The oldest is let go past these. */
const MOST = 12;

const keyOf = (name: string) => `swathclock.file ${name}`;

/** What the device holds, the last used first. Nothing it holds is trusted. */
export function readFiles(value: unknown): SavedFile[] {
  if (!Array.isArray(value)) return [];
  return value.flatMap((one: unknown) => {
    if (typeof one !== "object" || one === null) return [];
    const { name, fromUtc, hours } = one as Record<string, unknown>;
    const known = typeof name === "string" && typeof fromUtc === "string" && typeof hours === "number";
    return known && Number.isFinite(Date.parse(fromUtc)) ? [{ name, fromUtc, hours }] : [];
  });
}

/** The list with one more in front; one of the same name is replaced, and what no longer fits is told apart. */
export function withFile(
  files: readonly SavedFile[],
  added: SavedFile,
): { readonly files: readonly SavedFile[]; readonly gone: readonly SavedFile[] } {
  const all = [added, ...files.filter(({ name }) => name !== added.name)];
  return { files: all.slice(0, MOST), gone: all.slice(MOST) };
}

/** None where the device keeps nothing, or may not. */
export async function listFiles(): Promise<readonly SavedFile[]> {
  try {
    return readFiles(await get(LIST));
  } catch {
    return [];
  }
}

/** Remembers a file; the list as it is then. A device that keeps nothing asks for the file again. */
export async function saveFile(source: FileSource): Promise<readonly SavedFile[]> {
  const { startUtc } = source.series.hours;
  try {
    const added = { name: source.name, fromUtc: startUtc[0] ?? "", hours: startUtc.length };
    await set(keyOf(source.name), source);
    const { files, gone } = withFile(await listFiles(), added);
    await set(LIST, files);
    for (const { name } of gone) await del(keyOf(name));
    return files;
  } catch {
    return listFiles();
  }
}

/** A remembered file; null where the device no longer has it whole. */
export async function loadFile(name: string): Promise<FileSource | null> {
  try {
    const source = readSource(await get(keyOf(name)));
    return source?.kind === "upload" ? source : null;
  } catch {
    return null;
  }
}

export async function forgetFile(name: string): Promise<readonly SavedFile[]> {
  try {
    await del(keyOf(name));
    await update(LIST, (held: unknown) => readFiles(held).filter((file) => file.name !== name));
  } catch {
    // What cannot be written cannot be forgotten: it stays in the list and is told so by being there.
  }
  return listFiles();
}
