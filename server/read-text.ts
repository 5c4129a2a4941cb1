import type { Outcome } from "../model/limits.ts";

/**
 * Bytes as text. Only UTF-8 is taken: a file in another encoding would lose its degree signs and names silently.
 * A byte-order mark is dropped.
 */
export function readText(bytes: Uint8Array | ArrayBuffer, path: string): Outcome<string> {
  try {
    return { ok: true, value: new TextDecoder("utf-8", { fatal: true }).decode(bytes) };
  } catch {
    const message = `${path === "" ? "the body" : path}: not UTF-8 text; save the file as UTF-8 and send it again`;
    return { ok: false, issues: [{ path, code: "not-utf-8", message }] };
  }
}
