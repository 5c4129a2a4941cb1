/** What the server answered; without a body where it did not answer well. */
export interface Fetched {
  readonly status: number;
  readonly body: unknown;
}

/** What was set going before the page's own scripts were there. */
export interface EarlyStart {
  readonly worker: Worker;
  /** The worker hears what is asked. */
  readonly ready: Promise<void>;
  readonly samples: Promise<Fetched>;
  /** The worker fell over before anyone could listen to it. */
  failed: boolean;
}

/** What was set going early, once; null where nothing was, and then nothing will be. */
export function takeEarlyStart(): EarlyStart | null {
  const place: { earlyStart?: EarlyStart | null } = globalThis as object;
  const early = place.earlyStart ?? null;
  place.earlyStart = null;
  return early;
}
