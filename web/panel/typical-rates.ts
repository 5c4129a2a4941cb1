import {
  defaultBand,
  defaultPackage,
  HARVEST_DEFAULTS,
  MOWER,
  ROUTE_CATALOGUE,
  type RouteKey,
  typicalMachine,
  typicalRateHaPerH,
} from "../../model/harvest/index.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { PAGE_UNITS, toPage, unitName } from "../format/units.ts";
import type { FieldQuestion } from "../state/read-inputs.ts";

export interface TypicalRate {
  readonly label: string;
  readonly haPerH: number;
}

/** Mowing does not depend on the crop. */
export function typicalMowHaPerH(): number {
  return typicalRateHaPerH(MOWER, 1);
}

/**
 * What the model takes for a machine whose rate is left empty, route by route.
 *
 * @param of the routes whose machine it is
 */
export function typicalRates({ swath, routes }: FieldQuestion, of: readonly RouteKey[]): TypicalRate[] {
  const { crop, dryMatterTHa, initialMoistureWb } = swath;
  return (routes ?? [])
    .filter(({ route }) => of.includes(route))
    .flatMap(({ route, package: asked, store, bandWb }) => {
      const usual = route === "dry-hay" ? defaultPackage(crop) : HARVEST_DEFAULTS.package.value;
      const pack = asked ?? usual;
      const machine = typicalMachine(route, pack);
      if (machine === null) return [];
      const { kind, label } = ROUTE_CATALOGUE[route];
      const band = bandWb ?? defaultBand(route, crop, pack, store ?? HARVEST_DEFAULTS.store.value)?.bandWb;
      const entersWb = kind === "swath" ? (band?.[1] ?? initialMoistureWb) : initialMoistureWb;
      return [{ label, haPerH: typicalRateHaPerH(machine, dryMatterTHa / (1 - entersWb)) }];
    });
}

/** "empty = typical: 3.5 ha/h", or each route's where they differ. */
export function typicalWords(
  rates: readonly TypicalRate[],
  manner: Pick<Manner, "units" | "locale">,
): string {
  const { decimals } = PAGE_UNITS.areaRate[manner.units];
  const texts = rates.map(({ haPerH }) =>
    numberText(toPage(haPerH, "areaRate", manner.units), decimals, manner),
  );
  if (texts.length === 0) return "empty = a typical machine";
  const unit = unitName("areaRate", manner.units);
  if (new Set(texts).size === 1) return `empty = typical, ${texts[0]} ${unit}`;
  const each = rates.map(({ label }, i) => `${label.toLowerCase()} ${texts[i]}`).join(", ");
  return `empty = typical: ${each} ${unit}`;
}
