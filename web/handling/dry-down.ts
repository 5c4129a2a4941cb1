import { HARVEST_DEFAULTS } from "../../model/harvest/index.ts";
import { daysToBand } from "../../model/harvest/standing.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { bandPct, moisturePct } from "../format/words.ts";
import type { Scale, StripRow, Zone } from "./strip.ts";

/** How a standing crop dries by itself into the band of its store, for direct chop. */

type Numbers = Pick<Manner, "locale">;

export interface DryDown {
  readonly moistureWb: number;
  readonly bandWb: readonly [number, number];
  /** Points a day as the field has it; null = the usual one and its published range. */
  readonly ownRate: number | null;
}

const LEAST_DAYS = 14;
const MOST_DAYS = 84;

/** The rate that counts, and those between which it may lie. */
export function ratesOf(ownRate: number | null): readonly { readonly name: string; readonly rate: number }[] {
  if (ownRate !== null) return [{ name: "As measured", rate: ownRate }];
  const [slow, fast] = HARVEST_DEFAULTS.dryDownRangePerDay.value;
  return [
    { name: "Usual", rate: HARVEST_DEFAULTS.dryDownPointsPerDay.value },
    { name: "Slow", rate: slow },
    { name: "Dry weather", rate: fast },
  ];
}

/** "In band in about 9 days unless it rains". */
export function dryDownSentence({ moistureWb, bandWb, ownRate }: DryDown, numbers: Numbers): string {
  const [first] = ratesOf(ownRate);
  const rate = first?.rate ?? 0;
  const band = bandPct(bandWb, numbers);
  if (moistureWb < bandWb[0])
    return `The standing crop is at ${moisturePct(moistureWb, numbers)}, drier than the ${band} that the store takes: chop it shorter and pack harder, wettest loads on top.`;
  const days = daysToBand(moistureWb, bandWb[1], rate);
  const at = `The standing crop is at ${moisturePct(moistureWb, numbers)}`;
  if (days === null)
    return `${at} and does not dry by itself at 0 points a day: it stays too wet for ${band}.`;
  if (days === 0) return `${at}: in the band of ${band} now.`;
  const whole = Math.max(1, Math.round(days));
  return `${at}: in band in about ${whole === 1 ? "a day" : `${numberText(whole, 0, numbers)} days`} unless it rains. Measure the whole plant: leaf colour misleads.`;
}

export interface DryDownPicture {
  readonly rows: readonly StripRow[];
  readonly scale: Scale;
}

/** When the crop is too wet, in the band and too dry, by day from now and by rate. */
export function dryDownPicture({ moistureWb, bandWb, ownRate }: DryDown, numbers: Numbers): DryDownPicture {
  const rates = ratesOf(ownRate);
  const last = Math.max(
    LEAST_DAYS,
    ...rates.map(({ rate }) => daysToBand(moistureWb, bandWb[0], rate) ?? LEAST_DAYS),
  );
  const right = Math.min(MOST_DAYS, Math.ceil((last + 2) / 7) * 7);
  const step = right <= 28 ? 7 : 14;
  const ticks = Array.from({ length: Math.floor(right / step) + 1 }, (_none, i) => i * step);
  const rows = rates.map(({ name, rate }) => {
    const into = Math.min(right, daysToBand(moistureWb, bandWb[1], rate) ?? right);
    const out = Math.min(right, daysToBand(moistureWb, bandWb[0], rate) ?? right);
    const zones: Zone[] = [
      { from: 0, to: into, kind: "care", text: "too wet" },
      { from: into, to: out, kind: "fits", text: "in band" },
      { from: out, to: right, kind: "stop", text: "too dry" },
    ];
    return {
      name: `${name}, ${numberText(rate, 1, numbers)} a day`,
      zones: zones.filter(({ from, to }) => to > from),
    };
  });
  return { rows, scale: { left: 0, right, ticks } };
}

export function dryDownTable(
  { moistureWb, bandWb, ownRate }: DryDown,
  numbers: Numbers,
): readonly (readonly string[])[] {
  const days = (rate: number, edge: number) => {
    const found = daysToBand(moistureWb, edge, rate);
    return found === null ? "never" : numberText(found, 0, numbers);
  };
  const source = ownRate === null ? HARVEST_DEFAULTS.dryDownRangePerDay.source : "typed for this field";
  return ratesOf(ownRate).map(({ name, rate }) => [
    `${name}, ${numberText(rate, 1, numbers)} points a day`,
    days(rate, bandWb[1]),
    days(rate, bandWb[0]),
    source,
  ]);
}
