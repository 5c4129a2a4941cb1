import type { Manner } from "../../web/format/manner.ts";

/** Metric on a 24-hour clock, and US customary on a 12-hour clock, in one zone. */
export function metric24(zone: string): Manner {
  return { units: "metric", hour12: false, locale: "en-GB", zone };
}

export function us12(zone: string): Manner {
  return { units: "us", hour12: true, locale: "en-US", zone };
}
