import type { BandOrigin, PackageKey, StoreKey } from "../../model/harvest/index.ts";

/** How the page says what a route is packed or kept in, and where a band comes from. */

export const PACKAGE_LABELS: Readonly<Record<PackageKey, string>> = {
  "small-square": "small square bales",
  round: "round bales",
  "large-square": "large square bales",
  "stalk-bale": "stalk bales",
};
export const STORE_LABELS: Readonly<Record<StoreKey, string>> = {
  bunker: "bunker",
  pile: "pile",
  bag: "bag",
  stave: "stave silo",
  "oxygen-limiting": "oxygen-limiting silo",
};
export const ORIGIN_WORDS: Readonly<Record<BandOrigin, string>> = {
  published: "published",
  fitted: "fitted",
  assumed: "assumed",
  "from-memory": "from memory",
  "common-practice-no-source": "common practice, no source",
};
