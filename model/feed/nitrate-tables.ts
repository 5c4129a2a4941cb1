import type { Origin } from "../coefficient.ts";
import { NITROGEN_SHARE } from "./molar-masses.ts";

/** Published tables of what a nitrate result means for cattle, all on dry matter, edges as ppm NO3-N. */

/** `nothing-said`: the table prints no class there, neither for nor against. From the mildest to the gravest. */
export const NITRATE_CLASSES = [
  "nothing-said",
  "no-restriction",
  "limited",
  "not-sole-feed",
  "do-not-feed",
] as const;
export type NitrateClass = (typeof NITRATE_CLASSES)[number];

export const CLASS_WORDS: Readonly<Record<NitrateClass, string>> = {
  "nothing-said": "says nothing here",
  "no-restriction": "not restricted by this table",
  limited: "limited use",
  "not-sole-feed": "not as the only feed",
  "do-not-feed": "not to be fed",
};

/** A largest share of the ration's dry matter; null where the table says limited and gives no share. */
export type Share = number | null;

export interface TableBand {
  /** Upper edge, ppm NO3-N of dry matter, the edge itself included; Infinity for the last. */
  readonly upTo: number;
  readonly class: NitrateClass;
  readonly advice: string;
  readonly share: Share;
  /** For pregnant and other tender stock, where the table speaks of them. */
  readonly tender?: { readonly class: NitrateClass; readonly advice: string; readonly share: Share };
}

export interface NitrateTable {
  readonly key: string;
  /** Who stands behind it, short enough for a line; `source` gives the whole title. */
  readonly body: string;
  /** Of the source; null where it bears none. */
  readonly year: number | null;
  readonly source: string;
  readonly origin: Extract<Origin, "published" | "from-memory">;
  readonly bands: readonly TableBand[];
}

const NO3 = (ppm: number) => ppm * NITROGEN_SHARE.NO3;
const NO3_PCT = (pct: number) => NO3(pct * 10_000);

const free = (upTo: number): TableBand => ({
  upTo,
  class: "no-restriction",
  advice: "no limit by this table",
  share: 1,
});
/** Below the first class that a source prints: it does not say that feed is free there. */
const silent = (upTo: number): TableBand => ({
  upTo,
  class: "nothing-said",
  advice: "no class of this table",
  share: 1,
});
const limited = (
  upTo: number,
  advice: string,
  share: Share = null,
  tender?: TableBand["tender"],
): TableBand => ({
  upTo,
  class: "limited",
  advice,
  share,
  ...(tender ? { tender } : {}),
});
const notSole = (upTo: number, advice: string, share: Share = null): TableBand => ({
  upTo,
  class: "not-sole-feed",
  advice,
  share,
});
const never = (advice = "do not feed"): TableBand => ({
  upTo: Number.POSITIVE_INFINITY,
  class: "do-not-feed",
  advice,
  share: 0,
});
const notPregnant = { class: "do-not-feed", advice: "never to pregnant stock", share: 0 } as const;
const half = {
  class: "limited",
  advice: "pregnant stock at most half of the ration's dry matter",
  share: 0.5,
} as const;

/** In no order of worth; `classify` puts the strictest first. */
export const NITRATE_TABLES: readonly NitrateTable[] = [
  {
    key: "clemson",
    body: "Clemson University",
    year: null,
    source: "Clemson University Agricultural Service Laboratory, Nitrate levels in feed and forage",
    origin: "published",
    bands: [
      free(1000),
      limited(1500, "open stock without limit", 1, half),
      limited(2000, "at most half of the ration's dry matter", 0.5),
      // Printed "35 to 40 %": the stricter computes.
      limited(3500, "at most 35 % of the ration's dry matter", 0.35, notPregnant),
      limited(4000, "at most 25 % of the ration's dry matter", 0.25, notPregnant),
      never(),
    ],
  },
  {
    key: "laboratory",
    body: "a laboratory",
    year: null,
    source: "a commercial laboratory's table; source not kept, from memory",
    origin: "from-memory",
    bands: [
      free(700),
      limited(1400, "open stock without limit", 1, half),
      limited(2100, "at most half of the ration's dry matter", 0.5, {
        class: "limited",
        advice: "pregnant stock at most a quarter of the ration's dry matter",
        share: 0.25,
      }),
      limited(3500, "less than half of the ration's dry matter; ask for the share"),
      never(),
    ],
  },
  {
    key: "oklahoma",
    body: "Oklahoma State",
    year: null,
    source:
      "Oklahoma State University, Cow-Calf Corner: Nitrate poisoning in cattle; the same, reported by Hay & Forage Grower, Watch nitrate toxicity in winter feed",
    origin: "published",
    bands: [
      free(700),
      // The middle class is printed to 1400 ppm NO3-N and to 5000 NO3 (1130); over 5000 the second statement forbids it as
      // the only feed of open cows. The stricter computes.
      limited(NO3(5000), "the middle class: limit it and test the ration"),
      notSole(NO3(10_000), "potentially toxic, even for open cows"),
      never("potentially lethal"),
    ],
  },
  {
    key: "south-dakota",
    body: "South Dakota State",
    year: null,
    source: "South Dakota State University Extension, Nitrates and livestock water quality",
    origin: "published",
    bands: [free(1500), limited(4500, "limited use"), never("dangerous (edge from memory)")],
  },
  {
    key: "north-dakota",
    body: "North Dakota State",
    year: 2018,
    source: "North Dakota State University Extension, Reduce risk of nitrates in oat hay, 2018",
    origin: "published",
    bands: [
      free(1000),
      { ...free(1500), tender: { class: "limited", advice: "dilute for pregnant stock", share: null } },
      limited(3500, "dilute"),
      never("do not feed (implied)"),
    ],
  },
  {
    key: "cornell",
    body: "Cornell, reported",
    year: 2012,
    source: "Cornell, reported by Hoard's Dairyman, Drought raises your nitrate toxicity risk, 2012",
    origin: "published",
    bands: [
      free(NO3_PCT(0.44)),
      limited(NO3_PCT(0.88), "open cows only, limited", null, notPregnant),
      never("may kill above 0.9 % NO3"),
    ],
  },
  {
    key: "nebraska",
    body: "Nebraska, reported",
    year: null,
    source:
      "University of Nebraska, reported by Dairy Herd Management, NO3-N or NO3-: an important distinction",
    origin: "published",
    bands: [silent(NO3(9000)), notSole(Number.POSITIVE_INFINITY, "concern begins here")],
  },
  {
    key: "manitoba",
    body: "Manitoba Agriculture",
    year: null,
    source: "Manitoba Agriculture, Utilizing high nitrate feeds safely",
    origin: "published",
    bands: [
      free(NO3_PCT(0.3)),
      limited(NO3_PCT(0.6), "stressed stock at most half of the ration's dry matter", 1, half),
      notSole(NO3_PCT(0.9), "not as the only feed"),
      never(),
    ],
  },
  {
    key: "wyoming",
    body: "Wyoming Roundup",
    year: 2013,
    source: "Wyoming Livestock Roundup, Feeding and managing high nitrate feeds, 2013",
    origin: "published",
    bands: [free(NO3(6000)), limited(NO3(9000), "limited use"), never("do not feed (implied)")],
  },
  {
    key: "kansas",
    body: "Kansas State",
    year: null,
    source: "Kansas State Research and Extension column, Test drought-stricken forage",
    origin: "published",
    bands: [silent(NO3(6000)), notSole(Number.POSITIVE_INFINITY, "potentially toxic")],
  },
  {
    key: "illinois-dairy",
    body: "Illinois, reported",
    year: null,
    source: "University of Illinois, reported by Ag Proud, Drought-stressed corn concerns",
    origin: "published",
    bands: [
      free(NO3(4400)),
      limited(NO3(17_600), "adjust the feeding"),
      never("above the limit of a dairy cow's whole ration"),
    ],
  },
  {
    key: "penn-state",
    body: "Penn State",
    year: null,
    source: "Penn State University, High nitrate potential in corn silage",
    origin: "published",
    bands: [free(1000), limited(Number.POSITIVE_INFINITY, "the intake must be managed")],
  },
  {
    key: "oregon",
    body: "Oregon State",
    year: null,
    source: "Oregon State University Forages, Nitrate poisoning",
    origin: "published",
    bands: [
      silent(NO3_PCT(0.35)),
      notSole(Number.POSITIVE_INFINITY, "trouble above 0.35 to 0.45 % NO3 of the diet"),
    ],
  },
  {
    key: "nrc-1972",
    body: "National Research Council",
    year: 1972,
    source: "National Research Council (1972), six bands reproduced by many states; from memory",
    origin: "from-memory",
    bands: [
      free(NO3_PCT(0.44)),
      limited(NO3_PCT(0.66), "open stock without limit", 1, half),
      limited(NO3_PCT(0.88), "at most half of the ration's dry matter", 0.5),
      limited(NO3_PCT(1.54), "at most 35 % of the ration's dry matter", 0.35, notPregnant),
      limited(NO3_PCT(1.76), "at most 25 % of the ration's dry matter", 0.25, notPregnant),
      never(),
    ],
  },
];

const HORSE_LIMIT = "some advisers hold the whole diet under this: ask a veterinarian";

/**
 * What some advisers hold horses to: adult ones 0.5 % NO3, mares and growing stock 0.2 %. Read beside whatever table is
 * chosen, since the tables are made for cattle. Sources differ threefold: Oklahoma State (Nitrates and horses, 2024) tells of
 * 10 000-15 000 ppm NO3 fed without harm; the stricter computes.
 */
export const HORSE_ADVICE: NitrateTable = {
  key: "horse-advice",
  body: "advice for horses",
  year: 2018,
  source:
    "N.C. Cooperative Extension, Nitrates 101, 2018, which takes the cattle limits, and lay sources beside it: 0.5 % NO3 for adult horses, 0.2 % for mares and growing stock; Oklahoma State, Nitrates and horses, 2024: 10,000 to 15,000 ppm NO3 fed without harm",
  origin: "published",
  bands: [
    free(NO3_PCT(0.2)),
    {
      ...free(NO3_PCT(0.5)),
      tender: {
        class: "limited",
        advice: `over 0.2 % NO3 for mares and growing stock; ${HORSE_LIMIT}`,
        share: null,
      },
    },
    limited(Number.POSITIVE_INFINITY, `over 0.5 % NO3; ${HORSE_LIMIT}`),
  ],
};

export const TABLE_KEYS: readonly string[] = NITRATE_TABLES.map(({ key }) => key);
