import type { ServiceTrouble } from "../../model/weather/service-words.ts";

/** How a weather service can fail us, and whether asking it again can help. */

export type FailureCode = ServiceTrouble;

interface FailureParts {
  readonly code: FailureCode;
  readonly message: string;
  /** True where the same question may be answered a moment later. */
  readonly retryHelps?: boolean;
  /** How long the service wants to be left alone, ms. */
  readonly pauseMs?: number;
}

export class UpstreamFailure extends Error {
  readonly code: FailureCode;
  readonly retryHelps: boolean;
  readonly pauseMs: number;

  constructor({ code, message, retryHelps = false, pauseMs = 0 }: FailureParts) {
    super(message);
    this.name = "UpstreamFailure";
    this.code = code;
    this.retryHelps = retryHelps;
    this.pauseMs = pauseMs;
  }
}

/** The service's own words, short enough for a sentence. Markup is told by its title or dropped. */
export function inShort(text: string): string {
  const title = /<title[^>]*>([^<]*)<\/title>/i.exec(text)?.[1];
  const plain = (title ?? text.replace(/<[^>]*>/g, " ")).replace(/\s+/g, " ").trim();
  return plain.length > 160 ? `${plain.slice(0, 157)}...` : plain;
}

/** What an HTTP status means where the service has no rule of its own. */
export function failureOfStatus(status: number, text: string): UpstreamFailure {
  const said = inShort(text);
  const message = said === "" ? `answered ${status}` : `answered ${status}: ${said}`;
  if (status === 429) return new UpstreamFailure({ code: "rate-limited", message, pauseMs: 60_000 });
  if (status === 404 || status === 422) return new UpstreamFailure({ code: "outside-coverage", message });
  if (status >= 500) return new UpstreamFailure({ code: "unavailable", message, retryHelps: true });
  return new UpstreamFailure({ code: "refused", message });
}

/** Any error as a failure of the service: what is thrown while its answer is read is its answer's fault. */
export function asFailure(error: unknown): UpstreamFailure {
  if (error instanceof UpstreamFailure) return error;
  const message = `the answer could not be used: ${error instanceof Error ? error.message : String(error)}`;
  return new UpstreamFailure({ code: "unreadable", message });
}
