import type { RouteKey, StoreKey } from "./keys.ts";
import { PACKAGES, ROUTES, STORES } from "./keys.ts";
import { type Keeping, USUAL_KEEPING, usualFeeding } from "./losses/index.ts";
import { storeRequestOf } from "./money-checks.ts";
import type { WindowsRequest } from "./request.ts";
import { filmLayers } from "./route-details/wrapping.ts";
import { ROUTE_CATALOGUE } from "./routes.ts";
import type { Saying } from "./saying.ts";
import { FLAT_RATES, priceOf, type Rates, ratesWith } from "./value/prices.ts";
import { USUAL_PEOPLE, WAIT_PCT_PER_DAY } from "./value/route-value.ts";
import { priceWords } from "./words.ts";

/** Prices, rates and keeping with every default filled in. */
export interface SettledMoney {
  readonly prices: Readonly<Record<RouteKey, number>>;
  readonly rates: Rates;
  readonly people: number;
  readonly waitPctPerDay: number;
  /** Dry matter of a bale, kg; undefined = the package's usual. */
  readonly baleDmKg: number | undefined;
  readonly wrappedBaleDmKg: number | undefined;
  readonly layers: number;
  readonly keeping: Readonly<Record<RouteKey, Keeping>>;
}

/** Where a chopped route is stored, if the request says so under `stores`. */
export function siloAsked(request: Pick<WindowsRequest, "stores">, route: RouteKey): StoreKey | undefined {
  const { store } = storeRequestOf(request.stores?.[route]);
  return STORES.find((key) => key === store);
}

function keepingOf(request: Pick<WindowsRequest, "stores">, route: RouteKey): Keeping {
  const { store, ...rest } = storeRequestOf(request.stores?.[route]);
  if (store === undefined || route !== "dry-hay") return rest;
  return { ...rest, hayStore: store as Keeping["hayStore"] };
}

function byRoute<T>(of: (route: RouteKey) => T): Readonly<Record<RouteKey, T>> {
  return Object.fromEntries(ROUTES.map((route) => [route, of(route)])) as Record<RouteKey, T>;
}

/** What money is counted by. The request has passed its checks. */
export function settleMoney(
  request: Pick<WindowsRequest, "prices" | "rates" | "stores" | "swath">,
): SettledMoney {
  const { people, waitPctPerDay, baleDmKg, wrappedBaleDmKg, ...rates } = request.rates ?? {};
  return {
    prices: byRoute((route) => priceOf(route, request.prices)),
    rates: ratesWith(rates),
    people: people ?? USUAL_PEOPLE.value,
    waitPctPerDay: waitPctPerDay ?? WAIT_PCT_PER_DAY.value,
    baleDmKg,
    wrappedBaleDmKg,
    layers: filmLayers(request.swath.crop),
    keeping: byRoute((route) => keepingOf(request, route)),
  };
}

function keptWords(request: WindowsRequest, route: RouteKey, store: StoreKey): string {
  const kept = storeRequestOf(request.stores?.[route]);
  const fed = `fed ${(kept.feeding ?? usualFeeding(route)).replaceAll("-", " ")}`;
  if (route === "grazing") return (kept.grazing ?? USUAL_KEEPING.grazing).replaceAll("-", " ");
  if (route === "dry-hay")
    return `kept ${(kept.store ?? USUAL_KEEPING.hayStore).replaceAll("-", " ")}, ${fed}`;
  if (route === "wilted-chop" || route === "direct-chop") {
    const open = kept.covered === false ? ", open" : "";
    return `kept in a ${store.replaceAll("-", " ")}${open}, ${fed}`;
  }
  return fed;
}

/** One line for each route whose price or keeping was not given in full, and one for the rates. */
export function moneyAssumptions(
  request: WindowsRequest,
  routes: readonly { readonly route: RouteKey; readonly store: StoreKey }[],
  money: SettledMoney,
  saying: Saying,
): string[] {
  const lines = routes.map(({ route, store }) => {
    const price = priceWords(money.prices[route], saying);
    const stated = request.prices?.[route] === undefined ? " (default, in no currency: set your own)" : "";
    return `${ROUTE_CATALOGUE[route].label}: ${keptWords(request, route, store)}; worth ${price} of dry matter fed${stated}.`;
  });
  return [...lines, ...(usesDefaults(request) ? [RATES_ASSUMED] : [])];
}

const RATES_ASSUMED =
  "Rates of machines, labour, film and preservative that were not given are defaults in no currency, bare numbers of published contractors' prices: set your own.";

const TABLES = { passPerHa: 3, balePerBale: PACKAGES.length, haulPerBale: PACKAGES.length } as const;
/** True while any rate is not the user's own. */
function usesDefaults({ rates = {} }: WindowsRequest): boolean {
  if (FLAT_RATES.some((key) => rates[key] === undefined)) return true;
  return (["passPerHa", "balePerBale", "haulPerBale"] as const).some(
    (key) => Object.values(rates[key] ?? {}).filter((value) => value !== undefined).length < TABLES[key],
  );
}
