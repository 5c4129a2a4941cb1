/** What each invented spell is like, day by day. Every number here is invented. */

export interface Shower {
  /** Day of the spell, 0-9. */
  readonly day: number;
  /** Local hour in which it begins. */
  readonly hour: number;
  /** Rain of each of its hours, mm. */
  readonly mm: readonly number[];
}

export interface Spell {
  readonly id: string;
  readonly title: string;
  readonly seed: number;
  /** First local day. */
  readonly firstDay: string;
  /** Highest temperature of each of the ten days, °C. */
  readonly maxC: readonly number[];
  /** Fall from the day's highest to the next night's lowest temperature under a clear sky, °C. */
  readonly nightFallC: number;
  /** Dew point at midday of each day, °C. */
  readonly dewC: readonly number[];
  /** Cloud by day and by night, %. */
  readonly dayCloudPct: readonly number[];
  readonly nightCloudPct: number;
  readonly cloudSpreadPct: number;
  /** Mean wind at 10 m in the afternoon and before dawn, m/s. */
  readonly dayWindMps: number;
  readonly nightWindMps: number;
  readonly pressureHpa: number;
  readonly showers: readonly Shower[];
}

export const SPELLS: readonly Spell[] = [
  {
    id: "settled-dry",
    title: "Settled and dry",
    seed: 20260608,
    firstDay: "2026-06-08",
    maxC: [25.5, 26.5, 27, 28, 28.5, 29, 29.5, 30, 29, 28],
    nightFallC: 14.5,
    dewC: [8, 8.5, 9, 9.5, 10, 10.5, 11, 11.5, 11, 10],
    dayCloudPct: [15, 10, 5, 20, 30, 10, 5, 15, 35, 25],
    nightCloudPct: 8,
    cloudSpreadPct: 10,
    dayWindMps: 4.5,
    nightWindMps: 1.8,
    pressureHpa: 972,
    showers: [],
  },
  {
    id: "showers-every-other-day",
    title: "Showers every other day",
    seed: 20260620,
    firstDay: "2026-06-20",
    maxC: [26, 23, 27, 24, 27.5, 23.5, 26.5, 22.5, 27, 24],
    nightFallC: 12,
    dewC: [14, 15.5, 13.5, 15.5, 14, 16, 13.5, 15, 13, 15],
    dayCloudPct: [35, 75, 30, 70, 40, 80, 35, 85, 30, 70],
    nightCloudPct: 40,
    cloudSpreadPct: 18,
    dayWindMps: 5,
    nightWindMps: 2.4,
    pressureHpa: 963,
    showers: [
      { day: 1, hour: 14, mm: [0.6, 3.8, 2.1, 0.3] },
      { day: 3, hour: 17, mm: [1.2, 6.4, 1.8] },
      { day: 5, hour: 5, mm: [0.4, 1.1, 2.6, 1.9, 0.7, 0.2] },
      { day: 7, hour: 12, mm: [0.3, 0.9, 4.7, 5.2, 1.4] },
      { day: 9, hour: 19, mm: [2.2, 8.1, 0.9] },
    ],
  },
  {
    id: "humid-cloudy-dew",
    title: "Humid and cloudy, with dew",
    seed: 20260710,
    firstDay: "2026-07-10",
    maxC: [27, 27.5, 28, 27, 26.5, 28, 28.5, 27.5, 27, 28],
    nightFallC: 9.5,
    dewC: [19.5, 20, 20.5, 20, 19.5, 20.5, 21, 20.5, 20, 20.5],
    dayCloudPct: [75, 70, 80, 85, 90, 65, 70, 80, 85, 70],
    nightCloudPct: 12,
    cloudSpreadPct: 12,
    dayWindMps: 2.8,
    nightWindMps: 0.9,
    pressureHpa: 967,
    showers: [],
  },
  {
    id: "drought-heat",
    title: "Drought heat with dry wind",
    seed: 20260801,
    firstDay: "2026-08-01",
    maxC: [35, 36.5, 37, 38, 39, 39.5, 38.5, 37.5, 38, 36.5],
    nightFallC: 17,
    dewC: [9, 8, 7.5, 7, 6, 6.5, 7.5, 8, 7, 9],
    dayCloudPct: [5, 0, 5, 10, 0, 5, 15, 10, 5, 20],
    nightCloudPct: 5,
    cloudSpreadPct: 6,
    dayWindMps: 8.5,
    nightWindMps: 3.6,
    pressureHpa: 965,
    showers: [],
  },
];
