import { type Issue, limitIssue } from "../limits.ts";
import type { RouteKey } from "./keys.ts";
import { PACKAGES, ROUTES, STORES } from "./keys.ts";
import { HARVEST_LIMITS, KEEPING_LIMITS, PRICE_LIMITS } from "./limits.ts";
import { FEEDINGS, GRAZING_LOSS, HAY_STORES } from "./losses/index.ts";
import type { RouteRequest, StoreRequest, WindowsRequest } from "./request.ts";
import { LEAVE_LIMITS } from "./value/before-cutting.ts";
import { DEFAULT_RATES } from "./value/prices.ts";

/** What can be wrong with prices, stores and rates. */

type Issues = (Issue | null)[];

function issue(path: string, code: string, text: string): Issue {
  return { path, code, message: `${path}: ${text}` };
}

function oneOf(path: string, value: unknown, known: readonly string[]): Issue | null {
  if (typeof value === "string" && known.includes(value)) return null;
  return issue(path, "unknown-value", `got ${JSON.stringify(value)}, must be one of ${known.join(", ")}`);
}

/** The stores a route's feed may lie in; empty where it has none to choose. */
export const ROUTE_STORES: Readonly<Record<RouteKey, readonly string[]>> = {
  "dry-hay": HAY_STORES,
  "wrapped-bales": [],
  "wilted-chop": STORES,
  "direct-chop": STORES,
  "green-chop": [],
  grazing: [],
};

/** The words of `stores` that mean something for a route. */
export const ROUTE_KEEPING: Readonly<Record<RouteKey, readonly (keyof StoreRequest)[]>> = {
  "dry-hay": ["store", "feeding", "fixedChamber"],
  "wrapped-bales": ["feeding", "fixedChamber"],
  "wilted-chop": ["store", "covered", "densityKgM3", "feeding"],
  "direct-chop": ["store", "covered", "densityKgM3", "feeding"],
  "green-chop": ["feeding"],
  grazing: ["grazing"],
};

/** A bare text names the store. */
export function storeRequestOf(asked: string | StoreRequest | undefined): StoreRequest {
  return typeof asked === "string" ? { store: asked as StoreRequest["store"] } : (asked ?? {});
}

function strangerIssues(path: string, keys: readonly string[], known: readonly string[]): Issues {
  return keys.map((key) =>
    known.includes(key)
      ? null
      : issue(`${path}.${key}`, "unknown-key", `unknown key; known here: ${known.join(", ")}`),
  );
}

function storeIssues(
  route: RouteKey,
  asked: string | StoreRequest | undefined,
  chosen: RouteRequest | undefined,
): Issues {
  const path = `stores.${route}`;
  const given = storeRequestOf(asked);
  const at = (key: string) => (typeof asked === "string" ? path : `${path}.${key}`);
  const keys = Object.entries(given).flatMap(([key, value]) => (value === undefined ? [] : [key]));
  const strangers = keys.filter((key) => !ROUTE_KEEPING[route].some((known) => known === key));
  if (strangers.length > 0) {
    const known = ROUTE_KEEPING[route].join(", ");
    return strangers.map((key) =>
      issue(at(key), "not-for-route", `${route} has no such choice; it knows ${known}`),
    );
  }
  const { store, feeding, grazing, densityKgM3 } = given;
  const twice =
    store !== undefined && typeof chosen?.store === "string" && chosen.store !== store
      ? issue(
          at("store"),
          "out-of-order",
          `got ${JSON.stringify(store)}, must agree with the store of the route, ${JSON.stringify(chosen.store)}`,
        )
      : null;
  return [
    store === undefined ? null : oneOf(at("store"), store, ROUTE_STORES[route]),
    twice,
    feeding === undefined ? null : oneOf(at("feeding"), feeding, FEEDINGS),
    grazing === undefined ? null : oneOf(at("grazing"), grazing, Object.keys(GRAZING_LOSS)),
    densityKgM3 === undefined ? null : limitIssue(at("densityKgM3"), densityKgM3, KEEPING_LIMITS.densityKgM3),
  ];
}

/** Rates of a table (passes, packages), each a number of its own. */
function tableIssues(path: string, given: object, known: readonly string[]): Issues {
  const found = Object.entries(given).map(([key, value]) =>
    typeof value === "number" ? limitIssue(`${path}.${key}`, value, PRICE_LIMITS.rate) : null,
  );
  return [...strangerIssues(path, Object.keys(given), known), ...found];
}

const OTHER_RATES = {
  people: PRICE_LIMITS.people,
  waitPctPerDay: PRICE_LIMITS.waitPctPerDay,
  baleDmKg: PRICE_LIMITS.baleDmKg,
  wrappedBaleDmKg: PRICE_LIMITS.baleDmKg,
} as const;

function rateIssues(rates: object): Issues {
  const known = [...Object.keys(DEFAULT_RATES), ...Object.keys(OTHER_RATES)];
  const issues = strangerIssues("rates", Object.keys(rates), known);
  for (const [key, value] of Object.entries(rates) as [string, unknown][]) {
    const path = `rates.${key}`;
    if (typeof value === "number") {
      const other = Object.entries(OTHER_RATES).find(([name]) => name === key);
      issues.push(limitIssue(path, value, other ? other[1] : PRICE_LIMITS.rate));
    } else if (typeof value === "object" && value !== null) {
      const table = key === "passPerHa" ? Object.keys(DEFAULT_RATES.passPerHa) : PACKAGES;
      issues.push(...tableIssues(path, value, table));
    }
  }
  return issues;
}

function cutRuleIssues({ waitingPerHa, rainedOnPerHa }: NonNullable<WindowsRequest["cutRule"]>): Issues {
  const missing: Issue[] =
    waitingPerHa === undefined && rainedOnPerHa !== undefined
      ? [
          {
            path: "cutRule.waitingPerHa",
            code: "required",
            message:
              "cutRule.waitingPerHa: got nothing beside cutRule.rainedOnPerHa, must say what a day of waiting costs",
          },
        ]
      : [];
  return [
    ...missing,
    waitingPerHa === undefined
      ? null
      : limitIssue("cutRule.waitingPerHa", waitingPerHa, HARVEST_LIMITS.perHa),
    rainedOnPerHa === undefined
      ? null
      : limitIssue("cutRule.rainedOnPerHa", rainedOnPerHa, HARVEST_LIMITS.rainedOnPerHa),
  ];
}

/** Checks of the rule's costs, prices, stores, rates and what leaving may bring; null where there is nothing wrong. */
export function moneyIssues({ prices, stores, rates, routes, leave, cutRule }: WindowsRequest): Issues {
  const issues: Issues = Object.entries(leave ?? {}).flatMap(([key, value]) => {
    const limit = LEAVE_LIMITS[key as keyof typeof LEAVE_LIMITS];
    return typeof value === "number" && limit !== undefined ? [limitIssue(`leave.${key}`, value, limit)] : [];
  });
  if (cutRule) issues.push(...cutRuleIssues(cutRule));
  if (prices) {
    issues.push(...strangerIssues("prices", Object.keys(prices), ROUTES));
    for (const [route, price] of Object.entries(prices)) {
      if (price !== undefined) issues.push(limitIssue(`prices.${route}`, price, PRICE_LIMITS.pricePerTDm));
    }
  }
  if (stores) {
    issues.push(...strangerIssues("stores", Object.keys(stores), ROUTES));
    for (const route of ROUTES) {
      const chosen = routes?.find((asked) => asked.route === route);
      if (stores[route] !== undefined) issues.push(...storeIssues(route, stores[route], chosen));
    }
  }
  return rates ? [...issues, ...rateIssues(rates)] : issues;
}
