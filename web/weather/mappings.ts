import { get, set } from "idb-keyval";

/** What was said of a file, remembered by this device for the next file with the same header. */

export type Answers = Readonly<Record<string, string>>;

const KEY = "file-answers";
/** The oldest is let go past these. */
const MOST = 20;

/** What the device holds, newest first. Nothing it holds is trusted. */
export function readMappings(value: unknown): [string, Answers][] {
  if (!Array.isArray(value)) return [];
  return value.flatMap((entry: unknown): [string, Answers][] => {
    if (!Array.isArray(entry)) return [];
    const [key, answers] = entry as unknown[];
    if (typeof key !== "string" || typeof answers !== "object" || answers === null) return [];
    const texts = Object.entries(answers).filter(
      (pair): pair is [string, string] => typeof pair[1] === "string",
    );
    return [[key, Object.fromEntries(texts)]];
  });
}

export async function rememberedAnswers(headerKey: string): Promise<Answers | null> {
  try {
    return readMappings(await get(KEY)).find(([key]) => key === headerKey)?.[1] ?? null;
  } catch {
    return null;
  }
}

export async function rememberAnswers(headerKey: string, answers: Answers): Promise<void> {
  if (Object.keys(answers).length === 0) return;
  try {
    const others = readMappings(await get(KEY)).filter(([key]) => key !== headerKey);
    await set(KEY, [[headerKey, answers], ...others].slice(0, MOST));
  } catch {
    // A device that keeps nothing asks again.
  }
}
