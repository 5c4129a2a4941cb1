import type { CrewFieldRequest, CrewOp } from "../../model/crew/index.ts";
import { CROP_CATALOGUE, type CropKey } from "../../model/drying/index.ts";
import { defaultPlan, SWATH_ROUTES, type SwathRouteKey, usualRoutes } from "../../model/harvest/index.ts";

/** The routes by which a crop is commonly brought in from the swath. */
export function usualSwathRoutes(crop: CropKey): readonly SwathRouteKey[] {
  const usual = usualRoutes(crop);
  return SWATH_ROUTES.filter((route) => usual.includes(route));
}

const AFTER: Readonly<Record<SwathRouteKey, readonly CrewOp[]>> = {
  "dry-hay": ["bale"],
  "wrapped-bales": ["bale", "wrap"],
  "wilted-chop": ["chop"],
};

/** The works that a route commonly takes on this swath. */
export function usualWorks(
  route: SwathRouteKey,
  { crop, stubbleCm, coveredFraction }: CrewFieldRequest["swath"],
): readonly CrewOp[] {
  // What is baled dry is tedded; a swath that a rake suits is raked for every machine.
  const hay = defaultPlan("dry-hay", crop, stubbleCm, coveredFraction).map(({ kind }) => kind);
  const before: CrewOp[] = [];
  if (route === "dry-hay" && hay.includes("ted")) before.push("ted");
  if (hay.includes("rake")) before.push("rake");
  return ["mow", ...before, ...AFTER[route]];
}

const isSame = (a: readonly string[], b: readonly string[]) => a.join() === b.join();

/** Another route: the works that take the crop go with it; tedding and raking only where they were the usual ones. */
export function withRoute(field: CrewFieldRequest, route: SwathRouteKey): Partial<CrewFieldRequest> {
  if (isSame(field.ops, usualWorks(field.route, field.swath)))
    return { route, ops: usualWorks(route, field.swath) };
  const before = field.ops.filter((op) => op === "mow" || op === "ted" || op === "rake");
  const haul: readonly CrewOp[] = field.ops.includes("haul") ? ["haul"] : [];
  return { route, ops: [...before, ...AFTER[route], ...haul] };
}

/** Another crop: moisture, stubble, route and works follow it as long as they are the usual ones of the crop before. */
export function withCrop(field: CrewFieldRequest, crop: CropKey): Partial<CrewFieldRequest> {
  const [before, after] = [CROP_CATALOGUE[field.swath.crop], CROP_CATALOGUE[crop]];
  const { initialMoistureWb, stubbleCm } = field.swath;
  const follows = (value: number, usual: number) => Math.abs(value - usual) < 5e-4;
  const swath = {
    ...field.swath,
    crop,
    initialMoistureWb: follows(initialMoistureWb, before.usualMoistureWb)
      ? after.usualMoistureWb
      : initialMoistureWb,
    stubbleCm: follows(stubbleCm, before.usualStubbleCm) ? after.usualStubbleCm : stubbleCm,
  };
  const routes = usualSwathRoutes(crop);
  const wasUsual = usualSwathRoutes(field.swath.crop).includes(field.route);
  const route = wasUsual && !routes.includes(field.route) ? (routes[0] ?? field.route) : field.route;
  const worked = isSame(field.ops, usualWorks(field.route, field.swath));
  if (worked) return { swath, route, ops: usualWorks(route, swath) };
  return route === field.route ? { swath } : { swath, ...withRoute(field, route) };
}
