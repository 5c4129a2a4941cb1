import { LRUCache } from "lru-cache";

/** So many wrong keys from one address in that time, and it is not listened to until the time is over. */
export const FAILURES = { most: 10, windowMs: 15 * 60_000, addresses: 10_000 } as const;

/** The part of an address that one sender can hardly change: of IPv6 the network of 64 bits. */
export function senderOf(address: string): string {
  const plain = address.replace(/^::ffff:(?=\d+\.)/i, "").replace(/%.*$/, "");
  if (!plain.includes(":")) return plain;
  const [head = "", tail] = plain.split("::");
  const front = head === "" ? [] : head.split(":");
  const back = tail === undefined || tail === "" ? [] : tail.split(":");
  const middle = tail === undefined ? [] : Array(Math.max(0, 8 - front.length - back.length)).fill("0");
  return [...front, ...middle, ...back].slice(0, 4).join(":");
}

interface Failed {
  readonly count: number;
  readonly untilMs: number;
}

/** Counts wrong keys by sender. */
export function failureLimit(nowMs: () => number) {
  const seen = new LRUCache<string, Failed>({ max: FAILURES.addresses });
  const present = (sender: string): Failed | null => {
    const failed = seen.get(sender);
    return failed !== undefined && nowMs() < failed.untilMs ? failed : null;
  };
  return {
    /** Seconds that this sender has to wait; 0 = none. */
    waitS: (address: string): number => {
      const failed = present(senderOf(address));
      return failed === null || failed.count < FAILURES.most
        ? 0
        : Math.ceil((failed.untilMs - nowMs()) / 1000);
    },
    failed: (address: string): void => {
      const sender = senderOf(address);
      const before = present(sender);
      seen.set(sender, {
        count: (before?.count ?? 0) + 1,
        untilMs: before?.untilMs ?? nowMs() + FAILURES.windowMs,
      });
    },
    succeeded: (address: string): void => {
      seen.delete(senderOf(address));
    },
  };
}
