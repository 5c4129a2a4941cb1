import type { LearnedRateRequest, ReadingRequest } from "../../model/drying/index.ts";

/** A moisture that was measured on a cut, with where it was taken. */
export interface Reading {
  /** The cut that it was taken of. */
  readonly optionId: string;
  readonly request: ReadingRequest;
  /** "north end", as written; may be empty. */
  readonly place: string;
}

const LEARNED_KEY = "swathclock-learned";

/** Field and crop by which a learned rate is kept. */
export function learnedKey(fieldName: string, crop: string): string {
  return `${crop} ${fieldName.trim().toLowerCase()}`;
}

function isLearned(value: unknown): value is LearnedRateRequest {
  const one = value as Partial<LearnedRateRequest> | null;
  return (
    typeof one?.rateLnMean === "number" &&
    typeof one.rateLnSd === "number" &&
    typeof one.atUtc === "string" &&
    Number.isFinite(Date.parse(one.atUtc))
  );
}

export type Learned = Readonly<Record<string, LearnedRateRequest>>;

/** What this device learned of each field and crop; empty where it keeps nothing, or what it kept is unreadable. */
export function readLearned(): Learned {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(LEARNED_KEY) ?? "{}");
    return Object.fromEntries(
      Object.entries(kept as object).filter((pair): pair is [string, LearnedRateRequest] =>
        isLearned(pair[1]),
      ),
    );
  } catch {
    return {};
  }
}

/** Keeps a learned rate, or forgets it (null). A device that keeps nothing is no reason to stop. */
export function keepLearned(key: string, rate: LearnedRateRequest | null): Learned {
  const { [key]: _old, ...others } = readLearned();
  const next = rate === null ? others : { ...others, [key]: rate };
  try {
    localStorage.setItem(LEARNED_KEY, JSON.stringify(next));
  } catch {
    // Private windows keep nothing: the rate is learned for this visit alone.
  }
  return next;
}
