import type { ShownKind } from "./book-data.ts";
import type { Errors } from "./form.ts";
import { FIELD_FORM, HERD_FORM, MACHINE_FORM, PERSON_FORM, PRICES_FORM, SITE_FORM } from "./forms-of-farm.ts";
import { CUT_FORM, checkCut, checkReading, LOT_FORM, READING_FORM } from "./forms-of-work.ts";
import type { Spec, Values } from "./spec.ts";

/** The form of each kind. */
export const FORMS: Readonly<Record<ShownKind, readonly Spec[]>> = {
  fields: FIELD_FORM,
  cuts: CUT_FORM,
  readings: READING_FORM,
  lots: LOT_FORM,
  sites: SITE_FORM,
  machines: MACHINE_FORM,
  people: PERSON_FORM,
  prices: PRICES_FORM,
  herds: HERD_FORM,
};

/** What fields must say together. */
export const TOGETHER: Readonly<Partial<Record<ShownKind, (values: Values) => Errors>>> = {
  cuts: checkCut,
  readings: checkReading,
};
