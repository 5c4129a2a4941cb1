import { UpstreamFailure } from "./failure.ts";

/** Everything of the outside world that the adapters touch. Tests put their own in its place. */
export interface Network {
  readonly fetch: typeof fetch;
  readonly nowMs: () => number;
  /** Calls back after so many ms; the answer stops it. */
  readonly startTimer: (ms: number, fire: () => void) => () => void;
  /** Uniform in [0, 1). */
  readonly random: () => number;
  readonly userAgent: string;
  readonly log: (line: string) => void;
}

/** No single request takes longer than this. */
export const REQUEST_LIMIT_MS = 10_000;

export function theNetwork(userAgent: string): Network {
  return {
    fetch: (input, init) => fetch(input, init),
    nowMs: () => Date.now(),
    startTimer: (ms, fire) => {
      const timer = setTimeout(fire, ms);
      return () => clearTimeout(timer);
    },
    random: () => Math.random(),
    userAgent,
    log: (line) => console.warn(`swathclock: ${line}`),
  };
}

export function sleep(network: Network, ms: number): Promise<void> {
  return new Promise((resolve) => {
    network.startTimer(ms, resolve);
  });
}

/** The work's own result, or a failure at the deadline, whichever is first. `onLimit` may stop the work. */
export function beforeDeadline<T>(
  network: Network,
  work: Promise<T>,
  deadlineMs: number,
  onLimit: () => void = () => {},
): Promise<T> {
  const leftMs = deadlineMs - network.nowMs();
  return new Promise((resolve, reject) => {
    const stop = network.startTimer(Math.max(0, leftMs), () => {
      onLimit();
      const seconds = (Math.max(0, leftMs) / 1000).toFixed(0);
      reject(new UpstreamFailure({ code: "timeout", message: `no answer within ${seconds} s` }));
    });
    work.then(
      (value) => {
        stop();
        resolve(value);
      },
      (error: unknown) => {
        stop();
        reject(error);
      },
    );
  });
}

export interface Reply {
  readonly status: number;
  readonly headers: Headers;
  readonly text: string;
}

/** One request, headers and body within its limit. A fault of the network is a failure that a retry may cure. */
export async function requestOnce(
  network: Network,
  url: string,
  headers: Readonly<Record<string, string>>,
  deadlineMs: number,
): Promise<Reply> {
  const abort = new AbortController();
  const work = async (): Promise<Reply> => {
    try {
      const response = await network.fetch(url, {
        headers: { "User-Agent": network.userAgent, ...headers },
        signal: abort.signal,
      });
      return { status: response.status, headers: response.headers, text: await response.text() };
    } catch (error) {
      const cause = error instanceof Error && error.cause instanceof Error ? error.cause.message : "";
      const message = `could not be reached${cause === "" ? "" : ` (${cause})`}`;
      throw new UpstreamFailure({ code: "unreachable", message, retryHelps: true });
    }
  };
  const limitMs = Math.min(deadlineMs, network.nowMs() + REQUEST_LIMIT_MS);
  return beforeDeadline(network, work(), limitMs, () => abort.abort());
}
