import {
  ANIMAL_KG_LIMIT,
  type AnimalClass,
  type Basis,
  type ContentUnit,
  FEED_LIMITS,
  type FeedCheckRequest,
  type FeedQuestion,
  type Ion,
  overWhole,
  type QuickTest,
  type SampledAs,
  type SampleKind,
} from "../../model/feed/index.ts";
import type { RouteKey } from "../../model/harvest/keys.ts";
import type { Limit } from "../../model/limits.ts";
import { decimalMarkOf, numberMarksOf } from "../format/manner.ts";
import { fromPage, toPage, type Units } from "../format/units.ts";
import { lengthError } from "../state/names.ts";
import { editableText, readLimited, readNumber } from "../state/numbers.ts";

/** What is typed into the feed check, and the question it makes. An unchosen label is "" and is refused by the model. */

export interface FeedTexts {
  /** Stays the same while its feed is edited. */
  readonly key: number;
  readonly id: string;
  readonly dmPct: string;
  readonly dmKg: string;
  readonly nitrate: string;
  readonly ion: Ion | "";
  readonly unit: ContentUnit | "";
  readonly basis: Basis | "";
  readonly quickTest: QuickTest | "";
  readonly hcnPpm: string;
  readonly hcnBasis: Basis | "";
  readonly route: RouteKey | "";
  readonly sampled: SampledAs;
}

export interface FeedInputs {
  /** In which the weights and the water are typed. */
  readonly units: Units;
  readonly animal: AnimalClass;
  readonly kg: string;
  readonly pregnant: boolean;
  readonly young: boolean;
  readonly table: string;
  readonly target: string;
  readonly litres: string;
  readonly water: string;
  readonly waterIon: Ion | "";
  readonly feeds: readonly FeedTexts[];
  /** The feed whose largest share is wanted, by its key; null = none. */
  readonly wanted: number | null;
}

/** What the sampling plan is made from, as typed. */
export interface SamplingInputs {
  readonly kind: SampleKind;
  readonly bales: string;
  readonly tonnes: string;
  /** In which the weight was typed. */
  readonly units: Units;
  readonly parts: string;
}

/** Invented, as the ration is. */
export const FIRST_SAMPLING: SamplingInputs = {
  kind: "bales",
  bales: "60",
  tonnes: "30",
  units: "metric",
  parts: "1",
};

export const EMPTY_FEED: Omit<FeedTexts, "key" | "id"> = {
  dmPct: "88",
  dmKg: "",
  nitrate: "",
  ion: "",
  unit: "ppm",
  basis: "",
  quickTest: "",
  hcnPpm: "",
  hcnBasis: "",
  route: "",
  sampled: "fed-out",
};

/** An invented ration to begin with: a hay of drought-stricken oats and the straw that could thin it. */
export const FIRST_FEED_INPUTS: FeedInputs = {
  units: "metric",
  animal: "beef-cow",
  kg: "600",
  pregnant: true,
  young: false,
  table: "strictest",
  target: "",
  litres: "",
  water: "",
  waterIon: "",
  feeds: [
    {
      ...EMPTY_FEED,
      key: 1,
      id: "Oat hay",
      dmKg: "8",
      nitrate: "1.2",
      ion: "NO3",
      unit: "pct",
      basis: "dm",
      route: "dry-hay",
    },
    { ...EMPTY_FEED, key: 2, id: "Straw", dmPct: "90", dmKg: "4", nitrate: "100", ion: "NO3-N", basis: "dm" },
  ],
  wanted: 1,
};

/** The invented ration as its reader would type it. */
export function firstFeedInputs(locale: string): FeedInputs {
  const typed = (text: string) => text.replace(".", decimalMarkOf(locale));
  const { feeds, ...rest } = FIRST_FEED_INPUTS;
  return { ...rest, feeds: feeds.map((feed) => ({ ...feed, nitrate: typed(feed.nitrate) })) };
}

/** An empty ration: nothing of the example is left. */
export function emptied(inputs: FeedInputs): FeedInputs {
  return {
    ...inputs,
    target: "",
    litres: "",
    water: "",
    waterIon: "",
    feeds: [{ ...EMPTY_FEED, key: 1, id: "Feed 1" }],
    wanted: 1,
  };
}

/** US gallon, exactly. */
const L_PER_GAL = 3.785411784;

const litresOf = (value: number, units: Units) => (units === "us" ? value * L_PER_GAL : value);

function converted(text: string, factor: number, locale: string): string {
  const value = readNumber(text, numberMarksOf(locale));
  return value === null ? text : editableText(value * factor, 1, locale);
}

/** The same inputs as they would be typed in other units; what is no number stays as typed. */
export function inUnits(inputs: FeedInputs, units: Units, locale = "en"): FeedInputs {
  if (inputs.units === units) return inputs;
  const mass = units === "us" ? toPage(1, "mass", "us") : 1 / toPage(1, "mass", "us");
  const water = units === "us" ? 1 / L_PER_GAL : L_PER_GAL;
  return {
    ...inputs,
    units,
    kg: converted(inputs.kg, mass, locale),
    litres: converted(inputs.litres, water, locale),
    feeds: inputs.feeds.map((feed) => ({ ...feed, dmKg: converted(feed.dmKg, mass, locale) })),
  };
}

/** The feeds, by key, whose name and result are still the invented example's: nobody's, whoever is to eat how much of them. */
export function exampleFeeds({ feeds }: FeedInputs): readonly number[] {
  const result = ({ id, nitrate, ion, unit, basis, quickTest, hcnPpm }: FeedTexts) =>
    [id, nitrate.replace(",", "."), ion, unit, basis, quickTest, hcnPpm].join("|");
  const invented = FIRST_FEED_INPUTS.feeds.map(result);
  return feeds.filter((feed) => invented.includes(result(feed))).map(({ key }) => key);
}

/** A limit as it is on the page. */
function massLimit(limit: Limit, units: Units): Limit {
  if (units === "metric") return limit;
  const unit = limit.unit.replace("kg", "lb");
  return {
    ...limit,
    min: Math.round(toPage(limit.min, "mass", units)),
    max: Math.round(toPage(limit.max, "mass", units)),
    unit,
  };
}

/** Errors by field: "kg", "feed 2 dmKg". */
export type FeedErrors = Readonly<Record<string, string>>;

const DM_PCT: Limit = { min: 0, max: 100, unit: "%", minExcluded: true };

class Reader {
  readonly errors: Record<string, string> = {};

  constructor(readonly locale: string) {}

  /** A number inside its limit; null where the field is empty or wrong. */
  number(name: string, text: string, limit: Limit, needed: boolean): number | null {
    if (text.trim() === "") {
      if (needed) this.errors[name] = "Empty; a number is needed.";
      return null;
    }
    const { value, error } = readLimited(text, limit, this.locale);
    if (error !== undefined) this.errors[name] = error;
    return value;
  }
}

function readFeed(reader: Reader, feed: FeedTexts, wanted: boolean, units: Units): FeedQuestion | null {
  const name = (field: string) => `feed ${feed.key} ${field}`;
  if (feed.id.trim() === "") reader.errors[name("id")] = "Empty; the feed needs a name.";
  const longName = lengthError(feed.id.trim(), reader.locale);
  if (longName !== undefined) reader.errors[name("id")] = longName;
  const dmPct = reader.number(name("dmPct"), feed.dmPct, DM_PCT, true);
  const dmTyped = reader.number(name("dmKg"), feed.dmKg, massLimit(FEED_LIMITS.dmKg, units), true);
  const dmKg = dmTyped === null ? null : fromPage(dmTyped, "mass", units);
  const content = feed.unit === "pct" ? FEED_LIMITS.contentPct : FEED_LIMITS.contentPpm;
  const nitrate = reader.number(name("nitrate"), feed.nitrate, content, false);
  const hcn = reader.number(name("hcnPpm"), feed.hcnPpm, FEED_LIMITS.contentPpm, false);
  if (dmPct === null || dmKg === null || feed.id.trim() === "") return null;
  const labels = {
    ...(feed.ion === "" ? {} : { ion: feed.ion }),
    ...(feed.unit === "" ? {} : { unit: feed.unit }),
    ...(feed.basis === "" ? {} : { basis: feed.basis }),
  };
  const dmFrac = dmPct / 100;
  const over = nitrate === null || !labels.ion ? null : overWhole({ value: nitrate, ...labels }, dmFrac);
  if (over !== null) reader.errors[name("nitrate")] = `Got ${over}.`;
  const hcnLabels = feed.hcnBasis === "" ? {} : { basis: feed.hcnBasis };
  const overHcn = hcn === null ? null : overWhole({ value: hcn, unit: "ppm", ...hcnLabels }, dmFrac);
  if (overHcn !== null) reader.errors[name("hcnPpm")] = `Got ${overHcn}.`;
  return {
    id: feed.id.trim(),
    dmFrac,
    dmKg,
    sampled: feed.sampled,
    ...(nitrate === null ? {} : { nitrate: { value: nitrate, ...labels } }),
    ...(nitrate === null && feed.quickTest !== "" ? { quickTest: feed.quickTest } : {}),
    ...(hcn === null
      ? {}
      : {
          prussicAcid: {
            value: hcn,
            unit: "ppm" as const,
            ...hcnLabels,
          },
        }),
    ...(feed.route === "" ? {} : { route: feed.route }),
    ...(wanted ? { maxShare: true } : {}),
  };
}

/** The question of what is typed, or everything that is wrong with it. */
export function readFeedInputs(
  inputs: FeedInputs,
  locale = "en",
): { readonly errors: FeedErrors; readonly request: FeedCheckRequest | null } {
  const reader = new Reader(locale);
  const { units } = inputs;
  const kgTyped = reader.number("kg", inputs.kg, massLimit(ANIMAL_KG_LIMIT, units), true);
  const kg = kgTyped === null ? null : fromPage(kgTyped, "mass", units);
  const target = reader.number("target", inputs.target, FEED_LIMITS.targetPpmNo3N, false);
  const litresTyped = reader.number(
    "litres",
    inputs.litres,
    units === "us" ? { min: 0, max: 132, unit: "US gal a day" } : FEED_LIMITS.litres,
    inputs.water.trim() !== "",
  );
  const litres = litresTyped === null ? null : litresOf(litresTyped, units);
  const water = reader.number("water", inputs.water, FEED_LIMITS.waterPpm, inputs.litres.trim() !== "");
  const feeds = inputs.feeds.map((feed) => readFeed(reader, feed, feed.key === inputs.wanted, units));
  const names = new Set<string>();
  for (const { id, key } of inputs.feeds) {
    if (names.has(id.trim()))
      reader.errors[`feed ${key} id`] = `Got "${id}" twice; each feed needs a name of its own.`;
    names.add(id.trim());
  }
  if (kg === null || Object.keys(reader.errors).length > 0) return { errors: reader.errors, request: null };
  return {
    errors: {},
    request: {
      animal: { class: inputs.animal, kg, pregnant: inputs.pregnant, young: inputs.young },
      table: inputs.table,
      targetPpmNo3N: target,
      water:
        litres === null || water === null
          ? null
          : {
              litres,
              value: water,
              unit: "ppm",
              ...(inputs.waterIon === "" ? {} : { ion: inputs.waterIon }),
            },
      feeds: feeds.filter((feed) => feed !== null),
    },
  };
}
