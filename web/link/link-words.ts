import { CONDITIONINGS, CROPS, SOIL_CLASSES } from "../../model/drying/index.ts";
import { NAME_LENGTH } from "../../model/limits.ts";
import type { PlaceField } from "../place/place-texts.ts";
import type { Choices } from "../state/action.ts";
import {
  DROUGHTS,
  FEEDING_CHOICES,
  GRAZED_CHOICES,
  HAY_STORE_CHOICES,
  RAKE_CHOICES,
  SILO_COVERS,
  TED_CHOICES,
  YIELD_WAYS,
} from "../state/inputs.ts";

/** What a link may say of each choice. */
export const LINK_CHOICES = {
  crop: CROPS,
  conditioning: CONDITIONINGS,
  soil: SOIL_CLASSES,
  yieldBy: YIELD_WAYS,
  ted: TED_CHOICES,
  rake: RAKE_CHOICES,
  hayStore: HAY_STORE_CHOICES,
  siloCover: SILO_COVERS,
  hayFeeding: FEEDING_CHOICES,
  grazed: GRAZED_CHOICES,
  drought: DROUGHTS,
} as const satisfies {
  readonly [K in Exclude<keyof Choices, "fieldName" | "dryingAgent" | "settled">]: readonly Choices[K][];
};
export type LinkChoice = keyof typeof LINK_CHOICES;
export const LINK_CHOICE_NAMES = Object.keys(LINK_CHOICES) as readonly LinkChoice[];

export const PLACE_FIELDS: readonly PlaceField[] = [
  "latitude",
  "longitude",
  "elevationM",
  "windHeightM",
  "timeZone",
];

/** Stands after a value that was typed in US customary units; metric ones stand alone. */
export const US_MARK = "~us";
export const METRIC_MARK = "~metric";

/** Weather that a link cannot carry: "own-" and the file's mark, so that its owner's device knows it again. */
export const OWN_WEATHER = "own-";

/** Weather of the place that the link names, asked for when it is opened. */
export const FORECAST_WEATHER = "forecast";

/** Longest values, in characters; more is no field of this page. */
export const LONGEST = { fieldName: NAME_LENGTH, text: 200, other: 120, shown: 40 } as const;
/** Parts of a link that are read; more was not written by this page. */
export const MOST_PARTS = 100;
