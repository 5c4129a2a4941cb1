/**
 * What the model answers in Node for the demonstration field under the settled, dry sample. Our own output, kept to show
 * that a browser computes the same; it proves nothing about the model.
 */
export const SETTLED_DRY = {
  best: {
    overall: {
      optionId: "2026-06-08T14:00:00Z/swath",
      route: "wilted-chop",
    },
    byRoute: {
      "dry-hay": "2026-06-08T14:00:00Z/swath",
      "wrapped-bales": "2026-06-08T18:00:00Z/swath",
      "wilted-chop": "2026-06-08T14:00:00Z/swath",
    },
  },
  windows: [
    {
      startUtc: "2026-06-08T17:39:00Z",
      endUtc: "2026-06-08T19:42:00Z",
      workHours: 2.05,
      chance: null,
      rainedOn: false,
    },
  ],
  moistureWb: [
    {
      hour: 0,
      wb: 0.7571999539464073,
    },
    {
      hour: 5,
      wb: 0.5330012381713967,
    },
    {
      hour: 24,
      wb: 0.3315410128491603,
    },
    {
      hour: 48,
      wb: 0.15671679851044115,
    },
    {
      hour: 120,
      wb: 0.12813242431654862,
    },
    {
      hour: 200,
      wb: 0.0555611048460103,
    },
  ],
} as const;
