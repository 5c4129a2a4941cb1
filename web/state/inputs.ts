import type { Conditioning, CropKey, SoilClass } from "../../model/drying/keys.ts";
import type { PackageKey, RouteKey, StoreKey } from "../../model/harvest/index.ts";
import { HARVEST_DEFAULTS } from "../../model/harvest/index.ts";

/** Fields that are typed. Their text is kept as it was typed, right or wrong. */
export type TextField =
  | "yieldTHa"
  | "moisturePct"
  | "mowerCutM"
  | "swathWidthM"
  | "stubbleCm"
  | "areaHa"
  | "mowHaPerH"
  | "balerHaPerH"
  | "chopperHaPerH"
  | "workFrom"
  | "workTo"
  | "cutHours";

/** "usual" leaves the pass to what the crop and the route commonly get. */
export type TedChoice = "usual" | "none" | "morning-after";
export type RakeChoice = "usual" | "none" | "hour-before";

export interface RouteChoice {
  readonly on: boolean;
  /** Null where the route has none, or where the crop's usual one is wanted. */
  readonly package: PackageKey | null;
  readonly store: StoreKey | null;
}

/** Everything that is asked of the field and the work, as it stands on the page. */
export interface Inputs {
  readonly fieldName: string;
  readonly crop: CropKey;
  readonly conditioning: Conditioning;
  readonly soil: SoilClass;
  readonly ted: TedChoice;
  readonly rake: RakeChoice;
  readonly texts: Readonly<Record<TextField, string>>;
  readonly routes: Readonly<Record<RouteKey, RouteChoice>>;
}

const off: RouteChoice = { on: false, package: null, store: null };
const on: RouteChoice = { on: true, package: null, store: null };

/** The demonstration field: invented, as its weather is. */
export const DEMO_INPUTS: Inputs = {
  fieldName: "Creek field",
  crop: "alfalfa",
  conditioning: "roll",
  soil: "moist",
  ted: "usual",
  rake: "usual",
  texts: {
    yieldTHa: "3.8",
    moisturePct: "78",
    mowerCutM: "3",
    swathWidthM: "2.1",
    stubbleCm: "8",
    areaHa: "6.4",
    mowHaPerH: "",
    balerHaPerH: "",
    chopperHaPerH: "",
    workFrom: HARVEST_DEFAULTS.workHours.value.from,
    workTo: HARVEST_DEFAULTS.workHours.value.to,
    cutHours: HARVEST_DEFAULTS.cutHours.value.join(" "),
  },
  routes: {
    "dry-hay": on,
    "wrapped-bales": on,
    "wilted-chop": on,
    "direct-chop": off,
    "green-chop": off,
    grazing: off,
  },
};
