import type { Limit } from "../../model/limits.ts";
import type { Quantity } from "../format/units.ts";
import type { ShownKind } from "./book-data.ts";

/**
 * What a form of the book asks for, field by field. `path` is the key of the document, with points for what lies deeper:
 * the server names the same path in what it refuses.
 */

interface Asked {
  readonly path: string;
  readonly label: string;
  readonly hint?: string;
  readonly needed?: boolean;
  /** Needed as soon as this other field is filled. */
  readonly neededWith?: string;
  /** Asked only then. */
  readonly when?: (values: Values) => boolean;
}

export type Choices = readonly (readonly [string, string])[];

export interface TextSpec extends Asked {
  readonly type: "text" | "note";
  readonly most: number;
}

export interface NumberSpec extends Asked {
  readonly type: "number";
  readonly limit: Limit;
  /** Null = without a unit that changes with the system. */
  readonly quantity: Quantity | null;
  /** Fractions of the document that are per cent on the page. */
  readonly percent?: boolean;
  readonly whole?: boolean;
  readonly unit?: string;
  readonly decimals?: number;
}

export interface ChoiceSpec extends Asked {
  readonly type: "choice";
  readonly choices: Choices;
}

export interface FlagSpec extends Asked {
  readonly type: "flag";
}

export interface TimeSpec extends Asked {
  readonly type: "time";
}

/** A time of day on the farm's clock, as "07:00". */
export interface ClockSpec extends Asked {
  readonly type: "clock";
  readonly shape: RegExp;
}

export interface RefSpec extends Asked {
  readonly type: "ref";
  readonly kind: ShownKind;
}

/** One of several ranges of moisture, chosen by what the hand felt. */
export interface RangeSpec extends Asked {
  readonly type: "range";
  readonly ranges: readonly { readonly says: string; readonly range: readonly [number, number] }[];
}

/** A made name that nobody sees. */
export interface IdSpec extends Asked {
  readonly type: "id";
}

export interface ListSpec extends Asked {
  readonly type: "list";
  /** "spray": what one of them is called. */
  readonly one: string;
  readonly item: readonly OneSpec[];
  readonly most: number;
}

export type OneSpec =
  | TextSpec
  | NumberSpec
  | ChoiceSpec
  | FlagSpec
  | TimeSpec
  | ClockSpec
  | RefSpec
  | RangeSpec
  | IdSpec;
export type Spec = OneSpec | ListSpec;

/** What stands in a form: texts by path, and the forms of a list's items. "#" = which item of the document it was. */
export interface Values {
  readonly [path: string]: string | readonly Values[];
}

export const PLACE_IN_LIST = "#";

export const textOf = (values: Values, path: string): string => {
  const value = values[path];
  return typeof value === "string" ? value : "";
};

export const itemsOf = (values: Values, path: string): readonly Values[] => {
  const value = values[path];
  return typeof value === "object" ? value : [];
};
