import type { DrydownAnswer } from "../../model/drying/index.ts";
import type { RouteKey, WindowsAnswer, WindowsRequest } from "../../model/harvest/index.ts";
import type { Issue } from "../../model/limits.ts";
import type { Manner } from "../format/manner.ts";
import type { Selection } from "../state/choice.ts";
import type { SwathRibbon } from "./ribbons.ts";

/** Who reads what the model writes: units, and the browser's locale for clock and numbers. */
export type SpokenTo = Pick<Manner, "units" | "locale">;

/** A board beside the picture's own, with the course of a row where one is wanted. */
export interface Try {
  readonly request: WindowsRequest;
  readonly row?: Selection;
}

/** What came of a try; null where it was refused. */
export type Tried = { readonly answer: WindowsAnswer; readonly course: RowCourse | null } | null;

/** What the page asks its worker. The id grows with every board; a course belongs to the board of its id. */
export type Ask =
  | {
      readonly kind: "board";
      readonly id: number;
      readonly request: WindowsRequest;
      readonly selection: Selection | null;
      /** For whom the reasons are written; absent = 24-hour clock and metric. */
      readonly speech?: SpokenTo;
      /** True = told only with its odds: the same question for another reader must not give another answer meanwhile. */
      readonly whole?: boolean;
    }
  | { readonly kind: "course"; readonly id: number; readonly selection: Selection }
  /** The odds of the board of this id, and those of the course of one row; a newer board stops them. */
  | { readonly kind: "odds"; readonly id: number; readonly selection: Selection | null }
  /** The odds of one row's course alone, bent to what was measured on it. */
  | { readonly kind: "odds-course"; readonly id: number; readonly selection: Selection }
  | { readonly kind: "tries"; readonly id: number; readonly tries: readonly Try[] };

/** A course with the row and the route whose passes it has. */
export interface RowCourse {
  readonly optionId: string;
  readonly route: RouteKey | null;
  readonly course: DrydownAnswer;
}

export type Tell =
  | {
      readonly kind: "board";
      readonly id: number;
      readonly request: WindowsRequest;
      readonly answer: WindowsAnswer;
      readonly course: RowCourse | null;
      readonly ribbons: Readonly<Record<string, SwathRibbon>>;
      /** The best before the odds, of a board that is told with them. */
      readonly bestBefore?: WindowsAnswer["best"]["overall"];
    }
  | { readonly kind: "course"; readonly id: number; readonly course: RowCourse }
  | { readonly kind: "tries"; readonly id: number; readonly tried: readonly Tried[] }
  | { readonly kind: "refused"; readonly id: number; readonly issues: readonly Issue[] };

/** The worker hears what is asked from now on. A question that comes before waits until the page itself has rested. */
export interface TellReady {
  readonly kind: "ready";
}

/** What is told of odds: how far they are, then the same board with its odds, ranked by expected value. */
export type TellOdds =
  | { readonly kind: "odds-progress"; readonly id: number; readonly done: number; readonly of: number }
  | {
      readonly kind: "odds-course";
      readonly id: number;
      readonly course: RowCourse;
    }
  | {
      readonly kind: "odds";
      readonly id: number;
      readonly answer: WindowsAnswer;
      /** Of rows whose best route the odds changed. */
      readonly ribbons: Readonly<Record<string, SwathRibbon>>;
    };
