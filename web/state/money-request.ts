import type { RouteKey, WindowsRequest } from "../../model/harvest/index.ts";
import { HARVEST_DEFAULTS, PACKAGES, ROUTES } from "../../model/harvest/index.ts";
import type { Inputs } from "./inputs.ts";
import type { Money } from "./read-money.ts";

type MoneyRequest = Pick<WindowsRequest, "prices" | "stores" | "rates" | "hazards" | "leave" | "cutRule">;

/** Only what was said: an absent key has its stated default in the model. */
function said<T extends object>(parts: T): Partial<T> | undefined {
  const given = Object.entries(parts).filter(([, value]) => value !== undefined);
  return given.length === 0 ? undefined : (Object.fromEntries(given) as Partial<T>);
}

const everyPackage = (value: number | undefined) =>
  value === undefined ? undefined : Object.fromEntries(PACKAGES.map((pack) => [pack, value]));

function storesOf(
  { hayStore, siloCover, hayFeeding, grazed, routes }: Inputs,
  { packingKgM3 }: Money,
): MoneyRequest["stores"] {
  const feeding = hayFeeding === "ring-feeder" ? undefined : hayFeeding;
  // Cover and packing are of what is heaped: a tower or a bag has neither.
  const silo = (route: RouteKey) => {
    const store = routes[route].store ?? HARVEST_DEFAULTS.store.value;
    if (store !== "bunker" && store !== "pile") return undefined;
    return said({ covered: siloCover === "open" ? false : undefined, densityKgM3: packingKgM3 });
  };
  const all: Partial<Record<RouteKey, object | undefined>> = {
    "dry-hay": said({ store: hayStore === "inside" ? undefined : hayStore, feeding }),
    "wrapped-bales": said({ feeding }),
    "wilted-chop": silo("wilted-chop"),
    "direct-chop": silo("direct-chop"),
    grazing: grazed === "strips-of-days" ? undefined : { grazing: grazed },
  };
  return said(
    Object.fromEntries(ROUTES.filter((route) => routes[route].on).map((route) => [route, all[route]])),
  );
}

/** What the page says of prices, stores, rates, drought and waiting, as the model takes it; defaults are left to it. */
export function moneyRequest(inputs: Inputs, money: Money): MoneyRequest {
  const { drought } = inputs;
  const parts = {
    prices: said({
      "dry-hay": money.priceDryHay,
      "wrapped-bales": money.priceWrapped,
      "wilted-chop": money.priceWilted,
      "direct-chop": money.priceDirect,
      "green-chop": money.priceGreen,
      grazing: money.priceGrazing,
    }),
    stores: storesOf(inputs, money),
    rates: said({
      mowPerHa: money.mowCost,
      passPerHa: said({ ted: money.tedCost, rake: money.rakeCost, invert: money.rakeCost }),
      chopPerHa: money.chopCost,
      fillPerHa: money.fillCost,
      grazePerHa: money.grazeCost,
      balePerBale: everyPackage(money.baleCost),
      haulPerBale: everyPackage(money.haulCost),
      wrapPerBale: money.wrapCost,
      filmPerBale: money.filmCost,
      preservativePerKg: money.preservativeCost,
      labourPerH: money.labourCost,
      people: money.people,
      baleDmKg: money.baleDmKg,
      wrappedBaleDmKg: money.wrappedBaleDmKg,
    }),
    // Without a cost of waiting there is nothing to hold rained-on feed against.
    cutRule:
      money.waitCost === undefined
        ? undefined
        : said({ waitingPerHa: money.waitCost, rainedOnPerHa: money.rainedCost }),
    hazards: said({
      drought: drought === "not-said" ? undefined : drought === "yes",
      regrowthCm: money.regrowthCm,
    }),
    leave: said({
      grainTHa: money.grainTHa,
      grainPricePerT: money.grainPrice,
      grainCostPerHa: money.grainCost,
      grainChance: money.grainChancePct === undefined ? undefined : money.grainChancePct / 100,
      laterForageTHa: money.laterTHa,
      laterForagePricePerT: money.laterPrice,
      laterForageCostPerHa: money.laterCost,
    }),
  };
  return (said(parts) ?? {}) as MoneyRequest;
}
