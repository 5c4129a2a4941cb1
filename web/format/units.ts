/** Metric or US customary: chosen once, for everything the page says and asks. */
export const UNIT_SYSTEMS = ["metric", "us"] as const;
export type Units = (typeof UNIT_SYSTEMS)[number];

/** What is measured. Each has one unit in the model and one on the page for each system. */
export const QUANTITIES = [
  "area",
  "areaRate",
  "dryMatterYield",
  "width",
  "length",
  "stubble",
  "plantHeight",
  "mass",
  "tonnes",
  "delivery",
  "chopLength",
  "balesByArea",
  "perT",
  "perHa",
  "perKg",
  "density",
  "rain",
  "temperature",
  "wind",
  "elevation",
  "speed",
] as const;
export type Quantity = (typeof QUANTITIES)[number];

export interface UnitOfPage {
  /** As it stands after a number. */
  readonly unit: string;
  /** Value on the page = value of the model × factor + offset. */
  readonly factor: number;
  readonly offset: number;
  /** Decimals that are worth showing. */
  readonly decimals: number;
}

// Exact by definition: inch, foot and mile, avoirdupois pound, US short ton of 2000 lb, acre of 43 560 square feet.
const M_PER_FT = 0.3048;
const CM_PER_IN = 2.54;
const MM_PER_IN = 25.4;
const KG_PER_LB = 0.45359237;
const T_PER_TON = 2000 * (KG_PER_LB / 1000);
const HA_PER_AC = 43560 * M_PER_FT ** 2 * 1e-4;
const MPS_PER_MPH = 0.44704;

function unit(name: string, decimals: number, factor = 1, offset = 0): UnitOfPage {
  return { unit: name, factor, offset, decimals };
}

/** The units of the page. The metric ones are the model's own. */
export const PAGE_UNITS: Readonly<Record<Quantity, Readonly<Record<Units, UnitOfPage>>>> = {
  area: { metric: unit("ha", 1), us: unit("ac", 1, 1 / HA_PER_AC) },
  areaRate: { metric: unit("ha/h", 1), us: unit("ac/h", 1, 1 / HA_PER_AC) },
  dryMatterYield: { metric: unit("t/ha", 2), us: unit("ton/ac", 2, HA_PER_AC / T_PER_TON) },
  width: { metric: unit("m", 2), us: unit("ft", 1, 1 / M_PER_FT) },
  length: { metric: unit("m", 1), us: unit("ft", 1, 1 / M_PER_FT) },
  stubble: { metric: unit("cm", 0), us: unit("in", 1, 1 / CM_PER_IN) },
  plantHeight: { metric: unit("cm", 0), us: unit("ft", 1, 1 / (100 * M_PER_FT)) },
  mass: { metric: unit("kg", 0), us: unit("lb", 0, 1 / KG_PER_LB) },
  tonnes: { metric: unit("t", 1), us: unit("ton", 1, 1 / T_PER_TON) },
  delivery: { metric: unit("t/h", 0), us: unit("ton/h", 0, 1 / T_PER_TON) },
  chopLength: { metric: unit("mm", 0), us: unit("in", 2, 1 / MM_PER_IN) },
  balesByArea: { metric: unit("bales/ha", 1), us: unit("bales/ac", 1, HA_PER_AC) },
  // Money, in whatever currency: what a tonne, a hectare or a kilogram costs.
  perT: { metric: unit("a tonne", 0), us: unit("a ton", 0, T_PER_TON) },
  perHa: { metric: unit("a hectare", 0), us: unit("an acre", 0, HA_PER_AC) },
  perKg: { metric: unit("a kg", 2), us: unit("a lb", 2, KG_PER_LB) },
  density: { metric: unit("kg/m³", 0), us: unit("lb/ft³", 1, (100 * M_PER_FT) ** 3 / 1e6 / KG_PER_LB) },
  rain: { metric: unit("mm", 1), us: unit("in", 2, 1 / MM_PER_IN) },
  temperature: { metric: unit("°C", 0), us: unit("°F", 0, 1.8, 32) },
  wind: { metric: unit("m/s", 1), us: unit("mph", 0, 1 / MPS_PER_MPH) },
  elevation: { metric: unit("m", 0), us: unit("ft", 0, 1 / M_PER_FT) },
  speed: { metric: unit("km/h", 1), us: unit("mph", 1, 1 / (3.6 * MPS_PER_MPH)) },
};

/**
 * Steps in which people set each quantity in each system, in its unit on the page: a value that was typed in the other
 * system is shown to them. Common practice, no source. Limits are rounded inward to them.
 */
const STEPS: Readonly<Record<Quantity, Readonly<Record<Units, number>>>> = {
  area: { metric: 0.1, us: 0.1 },
  areaRate: { metric: 0.1, us: 0.1 },
  dryMatterYield: { metric: 0.05, us: 0.05 },
  width: { metric: 0.05, us: 0.5 },
  length: { metric: 0.1, us: 0.5 },
  stubble: { metric: 1, us: 0.5 },
  plantHeight: { metric: 5, us: 0.5 },
  mass: { metric: 1, us: 1 },
  tonnes: { metric: 0.1, us: 0.1 },
  delivery: { metric: 1, us: 1 },
  chopLength: { metric: 1, us: 0.05 },
  balesByArea: { metric: 0.1, us: 0.1 },
  perT: { metric: 0.01, us: 0.01 },
  perHa: { metric: 0.01, us: 0.01 },
  perKg: { metric: 0.01, us: 0.01 },
  density: { metric: 1, us: 0.1 },
  rain: { metric: 0.1, us: 0.01 },
  temperature: { metric: 0.5, us: 1 },
  wind: { metric: 0.1, us: 1 },
  elevation: { metric: 5, us: 10 },
  speed: { metric: 0.5, us: 0.5 },
};

/** From this on a mass is told in tens: nobody weighs cattle feed or bales closer. */
const MASS_TENS_FROM = 500;

function stepOf(page: number, quantity: Quantity, units: Units): number {
  return quantity === "mass" && Math.abs(page) >= MASS_TENS_FROM ? 10 : STEPS[quantity][units];
}

/** Digits of a limit that anybody reads: 12,355.2 ac is 12,300. */
const LIMIT_DIGITS = 3;

/** A limit on the page, rounded inward to a practical step that is as coarse as the number is large. */
export function limitToStep(
  page: number,
  quantity: Quantity,
  units: Units,
  towards: (value: number) => number,
): number {
  const digits = Math.floor(Math.log10(Math.max(1, Math.abs(page)))) + 1;
  const coarse = digits <= LIMIT_DIGITS ? 1 : 10 ** (digits - LIMIT_DIGITS);
  const step = Math.max(
    stepOf(page, quantity, units),
    digits === LIMIT_DIGITS ? 1 : coarse === 1 ? 0 : coarse,
  );
  return Number((towards(page / step - Math.sign(page) * 1e-9) * step).toFixed(6));
}

/** A number on the page brought to a practical step: the nearest, or the next up or down. Never to nothing. */
export function toStep(
  page: number,
  quantity: Quantity,
  units: Units,
  towards: (value: number) => number = Math.round,
): number {
  const step = stepOf(page, quantity, units);
  const rounded = Number((towards(page / step - Math.sign(page) * 1e-9) * step).toFixed(6));
  return rounded === 0 && page !== 0 && towards === Math.round ? Number(page.toPrecision(2)) : rounded;
}

/** A value of the model in the unit of the page. */
export function toPage(value: number, quantity: Quantity, units: Units): number {
  const { factor, offset } = PAGE_UNITS[quantity][units];
  return value * factor + offset;
}

/** A value in the unit of the page as the model takes it. */
export function fromPage(value: number, quantity: Quantity, units: Units): number {
  const { factor, offset } = PAGE_UNITS[quantity][units];
  return (value - offset) / factor;
}

/** The unit's own name on the page. */
export function unitName(quantity: Quantity, units: Units): string {
  return PAGE_UNITS[quantity][units].unit;
}
