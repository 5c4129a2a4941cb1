import { coefficient } from "../coefficient.ts";
import { NITROGEN_SHARE } from "./molar-masses.ts";

const KG_PER_CWT = 45.359237;
const KNO3_G_PER_CWT = 30;

/** Nitrate given to calves at once that killed: above 30 g KNO3 for each 100 lb of the animal, which is 4.2 g NO3-N. */
export const CALF_TRIAL = coefficient(
  (KNO3_G_PER_CWT * NITROGEN_SHARE.KNO3 * 100) / KG_PER_CWT,
  "g NO3-N for each 100 kg of the animal",
  "published",
  "J. Dairy Science (University of Missouri, year 1958 from memory), Effect of potassium nitrate intake on dairy calves: least lethal first dose above 30 g KNO3 per 100 lb",
  null,
);
