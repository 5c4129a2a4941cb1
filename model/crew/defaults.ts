import { type Coefficient, coefficient } from "../coefficient.ts";
import type { Stated } from "../harvest/routes.ts";

/** What the plan assumes where the question does not say. */
export const CREW_DEFAULTS = {
  readyShare: coefficient(
    0.8,
    "share of the members",
    "published",
    "suitable days are usually planned at 80 or 90 % (Rotz & Harrigan, predicting suitable days)",
    [0.8, 0.9],
  ),
  wrapWithinH: coefficient(
    12,
    "h",
    "from-memory",
    "wrap within 24 h of baling, ideally 4-12 h; the stricter computes",
    [4, 24],
  ),
  baleAfterRakeH: coefficient(
    24,
    "h",
    "assumed",
    "a windrow left longer dries no further and wets through",
    [2, 48],
  ),
  haulWithinH: coefficient(72, "h", "assumed", "bales left longer cost regrowth", [24, 240]),
  tedAfterMowH: coefficient(2, "h", "assumed", "the top of the swath is wilted before it is spread", [0, 6]),
  tedFootWb: coefficient(
    0.3,
    "wb",
    "assumed",
    "best above 50 %; grass loses only 2-3 % (Alberta Agriculture), so a late pass still pays",
    [0.25, 0.5],
  ),
  legumeTedFootWb: coefficient(
    0.5,
    "wb",
    "published",
    "tedding loses under 5 % above 50 % moisture (Alberta Agriculture)",
    [0.5, 0.6],
  ),
  rakeTopWb: coefficient(
    0.4,
    "wb",
    "published",
    "raking is best near 40 % moisture (Alberta Agriculture)",
    [0.3, 0.45],
  ),
  rakeAboveBandWb: coefficient(
    0.1,
    "wb",
    "assumed",
    "wilted routes are raked this much before the band's top",
    [0.05, 0.2],
  ),
  roadKmH: coefficient(30, "km/h", "assumed", "a tractor with a machine behind it", [15, 50]),
  detour: coefficient(1.3, "-", "assumed", "roads are longer than the straight line", [1.1, 1.6]),
  latenessShareADay: coefficient(
    0.02,
    "share of the field's value a day",
    "assumed",
    "feed value falls with waiting, and a promise was given",
    [0, 0.1],
  ),
  moveCostShare: coefficient(
    0.01,
    "share of the field's value a visit",
    "assumed",
    "a call, and some patience",
    [0, 0.05],
  ),
  givenForChance: coefficient(
    0.002,
    "share of the field's value",
    "assumed",
    "less than any plan is proved to, for a mowing hour of which the replay expects more than is given up",
    [0, 0.01],
  ),
  wrapHaPerH: coefficient(
    2.5,
    "ha/h",
    "from-memory",
    "20-40 bales an hour at about 12 bales a hectare",
    [1.5, 8],
  ),
  haulHaPerH: coefficient(
    3,
    "ha/h",
    "assumed",
    "one tractor and cart that load and drive bales near the field",
    [1, 8],
  ),
  dryHazardWb: coefficient(
    0.2,
    "wb",
    "assumed",
    "rain after a field is ready is reckoned on crop of this moisture",
    [0.15, 0.3],
  ),
} as const satisfies Record<string, Coefficient>;

export const CREW_CHOICES = {
  timeLimitS: { value: 10, origin: "assumed", source: "as long as a person waits" },
  horizonDays: { value: 10, origin: "assumed", source: "no forecast says more of a single day further on" },
  widenedMembers: {
    value: 20,
    origin: "assumed",
    source:
      "tenths of a chance can be told, at some 0.2 s of one core a field, 0.25 to 0.5 s where it is raked (weeks of the invented spells, 0.6 microseconds a swath-hour)",
  },
  slotMin: { value: 60, origin: "assumed", source: "the hour of the forecast" },
} as const satisfies Record<string, Stated<number>>;
