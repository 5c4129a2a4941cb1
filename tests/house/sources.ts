import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { ROOT } from "../support/root.ts";

export interface SourceFile {
  /** From the root, with forward slashes. */
  readonly path: string;
  readonly text: string;
}

/** Every file of the rooms whose path fits, without what is installed or built. */
export function sourceFiles(fits: RegExp): SourceFile[] {
  const files: SourceFile[] = [];
  const walk = (path: string) => {
    for (const entry of readdirSync(join(ROOT, path), { withFileTypes: true })) {
      const below = `${path}/${entry.name}`;
      if (entry.name === "node_modules" || entry.name === "dist") continue;
      if (entry.isDirectory()) walk(below);
      else if (fits.test(below)) files.push({ path: below, text: readFileSync(join(ROOT, below), "utf8") });
    }
  };
  for (const room of ["model", "server", "web", "tests", "weather-samples"]) walk(room);
  return files;
}

/** The source without its comments, so that words in them count for nothing. Strings stay. */
export function withoutComments(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\//g, "").replace(/(^|[\s;{}(),])\/\/.*$/gm, "$1");
}

export interface Import {
  readonly from: string;
  readonly typeOnly: boolean;
  /** Fetched when it is wanted first: `import("...")`. */
  readonly lazy: boolean;
}

/** What a file imports or re-exports, statically or not. */
export function importsOf(text: string): Import[] {
  const found: Import[] = [];
  const source = withoutComments(text);
  for (const match of source.matchAll(
    /\b(import|export)\s+(type\s+)?(?:[\w*{}\s,$]+?\s+from\s+)?["']([^"']+)["']/g,
  )) {
    const [, , type, from] = match;
    if (from !== undefined) found.push({ from, typeOnly: type !== undefined, lazy: false });
  }
  for (const match of source.matchAll(/\bimport\s*\(\s*["']([^"']+)["']\s*\)/g)) {
    if (match[1] !== undefined) found.push({ from: match[1], typeOnly: false, lazy: true });
  }
  return found;
}
