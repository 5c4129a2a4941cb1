/** What was set going before the page's own scripts were there. */
export interface EarlyStart {
  readonly worker: Worker;
  readonly samples: Promise<Response>;
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
