import type { DryingParameters } from "../../../model/drying/coefficients.ts";
import { DRYING_PARAMETERS } from "../../../model/drying/coefficients.ts";
import type { Check } from "./checks/check.ts";
import { cloudChecks } from "./checks/cloud-and-soil.ts";
import { densityChecks } from "./checks/density-and-pan.ts";
import { droughtCornChecks } from "./checks/drought-corn.ts";
import { fieldDayChecks } from "./checks/field-days.ts";
import { nightAndWindChecks } from "./checks/night-and-wind.ts";
import { rainChecks } from "./checks/rain.ts";
import { regressionChecks } from "./checks/regression.ts";
import { shadeChecks } from "./checks/still-shade.ts";
import { treatmentChecks } from "./checks/treatments.ts";

/** The accuracy table's rows: one file a topic, in the order of the table. */

export { type Check, hoursTo, lab, type Use } from "./checks/check.ts";
export { rotzChen, rotzRatios } from "./checks/regression.ts";
export { CLOUDY_WET, SUNNY_DRY } from "./checks/spells.ts";

const TOPICS = [
  regressionChecks,
  densityChecks,
  shadeChecks,
  nightAndWindChecks,
  treatmentChecks,
  cloudChecks,
  droughtCornChecks,
  rainChecks,
  fieldDayChecks,
];

/** Every row of the accuracy table, computed with the given coefficients. */
export function allChecks(p: DryingParameters = DRYING_PARAMETERS): Check[] {
  return TOPICS.flatMap((checks) => checks(p));
}
