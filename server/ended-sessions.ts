import { createHash } from "node:crypto";
import { appendFileSync, readFileSync } from "node:fs";

/** Days after which an ended session would be over by itself. */
const KEPT_MS = 31 * 86_400_000;
const hashOf = (token: string): string => createHash("sha256").update(token).digest("base64url");

/** Lines "HASH UNTIL_MS"; a file that is not there, or a line that cannot be read, says nothing. */
function readEnded(file: string | undefined, nowMs: number): Map<string, number> {
  const ended = new Map<string, number>();
  if (file === undefined) return ended;
  try {
    for (const line of readFileSync(file, "utf8").split("\n")) {
      const [hash = "", untilMs = ""] = line.split(" ");
      if (hash !== "" && Number(untilMs) > nowMs) ended.set(hash, Number(untilMs));
    }
  } catch {
    // Nobody has signed out yet.
  }
  return ended;
}

/**
 * Sessions that were ended before their time. Of a token only its hash is kept.
 *
 * @param file where they outlive the server; where that cannot be written they last as long as the server
 */
export function endedSessions(file: string | undefined, nowMs: () => number) {
  const ended = readEnded(file, nowMs());
  return {
    has: (token: string): boolean => ended.has(hashOf(token)),
    end: (token: string): void => {
      const hash = hashOf(token);
      if (ended.has(hash)) return;
      for (const [old, untilMs] of ended) if (untilMs <= nowMs()) ended.delete(old);
      const untilMs = nowMs() + KEPT_MS;
      ended.set(hash, untilMs);
      if (file === undefined) return;
      try {
        appendFileSync(file, `${hash} ${untilMs}\n`, { mode: 0o600 });
      } catch {
        // A disk that is full or protected: the server still knows it.
      }
    },
  };
}
