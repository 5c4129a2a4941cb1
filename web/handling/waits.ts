import type { CropKey } from "../../model/drying/keys.ts";
import type { RouteKey } from "../../model/harvest/index.ts";
import {
  HEATING,
  PRACTICE_FERMENT_WEEKS,
  routeWaits,
  type Wait,
} from "../../model/harvest/route-details/index.ts";
import type { Scale, StripRow } from "./strip.ts";

/** What a route waits for between the machine and the animal. */

const DAYS_PER_WEEK = 7;
const NAMES = {
  ferment: "Ferment, unopened",
  "silo-gas": "Silo gas: stay out",
  wagon: "In the wagon",
  test: "Test",
  rain: "After rain that ends a drought",
  frost: "After frost",
  height: "Height of the growth",
} as const;

export interface WaitStrip {
  readonly rows: readonly StripRow[];
  readonly scale: Scale;
  readonly unit: "weeks" | "h" | "d";
}

const DAYS_SCALE = { left: 0, right: 21, ticks: [0, 7, 14, 21] } as const;
const SHORT_NAMES = { ...NAMES, rain: "After the rain" } as const;

function grazedStrip(timed: readonly Wait[]): WaitStrip | null {
  if (timed.length === 0) return null;
  return {
    rows: timed.map(({ what, amount }) => ({
      name: SHORT_NAMES[what],
      zones: [
        { from: 0, to: amount ?? 0, kind: "stop", text: `${amount} days` },
        { from: amount ?? 0, to: DAYS_SCALE.right, kind: "bare", text: "test, then decide" },
      ],
    })),
    scale: DAYS_SCALE,
    unit: "d",
  };
}

/** The waits that have a length; null where none has. Hay is probed for as long as fires begin. */
export function waitStrip(route: RouteKey, crop: CropKey): WaitStrip | null {
  if (route === "dry-hay") {
    const weeks = HEATING.watchDays.value / DAYS_PER_WEEK;
    const [usual] = HEATING.watchDays.validRange ?? [HEATING.watchDays.value];
    return {
      rows: [
        {
          name: "Probe for heat",
          zones: [
            { from: 0, to: usual / DAYS_PER_WEEK, kind: "stop", text: "daily" },
            { from: usual / DAYS_PER_WEEK, to: weeks, kind: "care", text: "until it is steady" },
          ],
        },
      ],
      scale: { left: 0, right: 8, ticks: [0, 2, 4, 6, 8] },
      unit: "weeks",
    };
  }
  const timed = routeWaits(route, crop).filter(({ amount }) => amount !== null);
  if (route === "grazing") return grazedStrip(timed);
  const [first] = timed;
  if (first === undefined) return null;
  const wagon = timed.find(({ unit }) => unit === "h");
  if (wagon !== undefined) {
    const hours = wagon.amount ?? 0;
    return {
      rows: [
        {
          name: NAMES.wagon,
          zones: [
            { from: 0, to: hours, kind: "care", text: "feed it" },
            { from: hours, to: 12, kind: "stop", text: "discard it" },
          ],
        },
      ],
      scale: { left: 0, right: 12, ticks: [0, 2, 4, 6, 8, 10, 12] },
      unit: "h",
    };
  }
  return {
    rows: timed.map(({ what, amount }) => ({
      name: NAMES[what],
      zones: [
        { from: 0, to: amount ?? 0, kind: "stop", text: `${amount} weeks` },
        { from: amount ?? 0, to: 12, kind: "bare", text: what === "ferment" ? "test, then decide" : "" },
      ],
    })),
    scale: { left: 0, right: 12, ticks: [0, 2, 4, 6, 8, 10, 12] },
    unit: "weeks",
  };
}

/** All waits of a route in the order in which they come. */
export function waitSentence(route: RouteKey, crop: CropKey): string {
  return routeWaits(route, crop)
    .map(({ text }) => text)
    .join(" ");
}

export function waitTable(route: RouteKey, crop: CropKey): readonly (readonly string[])[] {
  const rows = routeWaits(route, crop).map(({ what, amount, unit, text, source }) => [
    NAMES[what],
    amount === null || unit === null ? "until the result is there" : `${amount} ${unit}`,
    text,
    source,
  ]);
  if (route !== "wrapped-bales" && route !== "wilted-chop" && route !== "direct-chop") return rows;
  const [least, most] = PRACTICE_FERMENT_WEEKS;
  return [
    ...rows,
    [
      "Ferment, as commonly done",
      `${least} to ${most} weeks`,
      "Beside the published wait, which is what counts here.",
      "common practice, no source",
    ],
  ];
}
