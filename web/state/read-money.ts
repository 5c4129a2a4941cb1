import type { FieldReader } from "./field-reader.ts";

/** What is typed of money and of what goes with it: all may stay empty, which leaves the stated default. */
export const MONEY_FIELDS = [
  "priceDryHay",
  "priceWrapped",
  "priceWilted",
  "priceDirect",
  "priceGreen",
  "priceGrazing",
  "mowCost",
  "tedCost",
  "rakeCost",
  "chopCost",
  "fillCost",
  "grazeCost",
  "baleCost",
  "haulCost",
  "wrapCost",
  "filmCost",
  "preservativeCost",
  "labourCost",
  "people",
  "baleDmKg",
  "wrappedBaleDmKg",
  "packingKgM3",
  "nitratePpm",
  "prussicPpm",
  "regrowthCm",
  "grainTHa",
  "grainPrice",
  "grainCost",
  "grainChancePct",
  "laterTHa",
  "laterPrice",
  "laterCost",
  "waitCost",
  "rainedCost",
] as const;
export type MoneyField = (typeof MONEY_FIELDS)[number];

/** The numbers that were typed, in the units of the model; what is absent has its default. */
export type Money = Readonly<Partial<Record<MoneyField, number>>>;

/** Longest name of a currency: "EUR", "US$". */
export const CURRENCY_LENGTH = 6;

/** Reads them; what is wrong stands beside its field and is absent here. */
export function readMoney(reader: FieldReader): Money {
  const { text } = reader.inputs.texts.currency;
  if ([...text.trim()].length > CURRENCY_LENGTH)
    reader.errors.currency = `Got ${[...text.trim()].length} characters, must be at most ${CURRENCY_LENGTH}, as EUR or $.`;
  return Object.fromEntries(
    MONEY_FIELDS.flatMap((field) => {
      const value = reader.optional(field);
      return value === undefined ? [] : [[field, value] as const];
    }),
  );
}
