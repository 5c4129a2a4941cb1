import { CROP_CATALOGUE } from "../../drying/crops.ts";
import { defaultBand } from "../../harvest/bands.ts";
import { defaultPackage, HARVEST_DEFAULTS } from "../../harvest/routes.ts";
import { ALL_CONDITIONS, type Conditions } from "../../harvest/spans.ts";
import { CREW_DEFAULTS } from "../defaults.ts";
import { type CrewOp, isGather } from "../keys.ts";
import type { CrewFieldRequest } from "../request.ts";

/** Moisture band of the field's route, wet basis, [driest, wettest]. */
export function routeBand(field: CrewFieldRequest): readonly [number, number] {
  const { route, swath } = field;
  const pack = field.package ?? (route === "dry-hay" ? defaultPackage(swath.crop) : "round");
  const store = field.store ?? HARVEST_DEFAULTS.store.value;
  return field.bandWb ?? defaultBand(route, swath.crop, pack, store)?.bandWb ?? [0, 1];
}

/** Between which moistures a work is done, wet basis, and what else must hold. */
export interface OpBand {
  readonly bandWb: readonly [number, number];
  readonly conditions: Conditions;
}

/** The band of a work that follows the mowing; null where moisture is nothing to it. */
export function bandOfOp(op: CrewOp, field: CrewFieldRequest): OpBand | null {
  const [driest, wettest] = routeBand(field);
  const anyFilm: Conditions = { ...ALL_CONDITIONS, film: false, work: false };
  if (op === "ted") {
    const { legumeTedFootWb, tedFootWb } = CREW_DEFAULTS;
    const foot = CROP_CATALOGUE[field.swath.crop].legume ? legumeTedFootWb.value : tedFootWb.value;
    // Nothing is spread that is nearly fit to be taken.
    return { bandWb: [Math.min(0.9, Math.max(foot, wettest)), 1], conditions: anyFilm };
  }
  if (op === "rake") {
    const top =
      field.route === "dry-hay"
        ? CREW_DEFAULTS.rakeTopWb.value
        : Math.min(0.85, wettest + CREW_DEFAULTS.rakeAboveBandWb.value);
    return { bandWb: [driest, Math.max(top, wettest)], conditions: anyFilm };
  }
  if (isGather(op)) return { bandWb: [driest, wettest], conditions: { ...ALL_CONDITIONS, work: false } };
  return null;
}
