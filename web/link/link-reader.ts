import { partWords } from "../panel/change-words.ts";
import { LONGEST, MOST_PARTS } from "./link-words.ts";

export const STAYS = "The demo's stays.";
export const BEST_SHOWN = "The best row is shown.";
export const FIRST_SHOWN = "The route's first window is shown.";
export const LEFT_OUT = "It is left out.";

/** A value as it is quoted in a sentence. */
export function quoted(value: string): string {
  const short = [...value].slice(0, LONGEST.shown).join("");
  return short === value ? `"${value}"` : `"${short}..." (${value.length} characters)`;
}

/** A sentence on one part of the link, in the words of its field. */
export function said(name: string, what: string, then: string): string {
  const words = partWords(name);
  return words === null
    ? `The link's part ${quoted(name)}: ${what} ${then}`
    : `The link's ${words}: ${what} ${then}`;
}

/** Reads the parts of a link one by one and keeps what is wrong with each. */
export class LinkReader {
  readonly problems: string[] = [];
  readonly #parts = new Map<string, string>();

  constructor(search: string) {
    const all = [...new URLSearchParams(search)];
    for (const [name, value] of all.slice(0, MOST_PARTS)) {
      if (this.#parts.has(name)) this.problems.push(said(name, "It stands twice.", "The first is used."));
      else this.#parts.set(name, value);
    }
    if (all.length > MOST_PARTS)
      this.problems.push(`The link has ${all.length} parts; only the first ${MOST_PARTS} are read.`);
  }

  get given(): boolean {
    return this.#parts.size > 0;
  }

  /** A part, taken out; what is left in the end is not known. */
  take(name: string, longest: number = LONGEST.other): string | undefined {
    const value = this.#parts.get(name);
    this.#parts.delete(name);
    if (value === undefined || value.length <= longest) return value;
    this.problems.push(said(name, `Got ${value.length} characters, must be at most ${longest}.`, STAYS));
    return undefined;
  }

  oneOf<T extends string>(name: string, known: readonly T[]): T | undefined {
    const value = this.take(name);
    const found = known.find((each) => each === value);
    if (value !== undefined && found === undefined) this.unknown(name, value);
    return found;
  }

  unknown(name: string, value: string): void {
    this.problems.push(said(name, `${quoted(value)} is not known.`, STAYS));
  }

  rest(): void {
    for (const name of this.#parts.keys())
      this.problems.push(`The link's part ${quoted(name)} is not known. ${LEFT_OUT}`);
  }
}
