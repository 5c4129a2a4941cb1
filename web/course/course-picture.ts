import type { DrydownAnswer } from "../../model/drying/answer.ts";
import type { CutOptionAnswer, OperationAnswer, RouteAnswer } from "../../model/harvest/answer.ts";
import type { RouteKey } from "../../model/harvest/keys.ts";
import type { WeatherSeries } from "../../model/weather/series.ts";
import type { Manner } from "../format/manner.ts";
import type { PassedSwath } from "./leaf-loss.ts";
import type { CourseOdds, SpreadPoint } from "./spread.ts";

/** A moment across (hours from the chart's left edge) and a moisture up (per cent, wet basis). */
export interface CoursePoint {
  readonly x: number;
  readonly y: number;
}

/** Both cuts where they lie in the calendar, or both from the hour of their cut. */
export const ALIGNMENTS = ["calendar", "cut"] as const;
export type Alignment = (typeof ALIGNMENTS)[number];

/** A cut kept aside, to be drawn beside the chosen one. */
export interface KeptCourse {
  readonly course: DrydownAnswer;
  /** Start of mowing and the moment the course starts from, UTC ms. */
  readonly mowMs: number;
  readonly cutMs: number;
  readonly initialMoistureWb: number;
  readonly align: Alignment;
}

export interface KeptLine {
  readonly points: readonly CoursePoint[];
  /** Its cut across, hours; null where it is the chosen one's, or out of the picture. */
  readonly cutX: number | null;
  readonly label: string;
}

export interface CourseTick {
  readonly x: number;
  readonly label: string;
  /** Hour of the farm's day: 0, 6, 12 or 18. */
  readonly hour: number;
  /** A midnight carries the name of the day it begins. */
  readonly day: string | null;
}

export interface CourseBand {
  readonly route: RouteKey;
  readonly label: string;
  readonly range: string;
  /** Driest and wettest edge, per cent. */
  readonly loPct: number;
  readonly hiPct: number;
}

export interface CourseMark extends CoursePoint {
  readonly kind: "cut" | OperationAnswer["kind"] | "window" | "reading";
  readonly label: string;
  /** The same where the picture is narrow; absent = as it is. */
  readonly short?: string;
  /** A pass that comes after the route's window has closed: the crop is in by then, and it cannot be moved. */
  readonly gone?: boolean;
  /** When, UTC ms. */
  readonly atMs: number;
  /** Of a reading: its error, per cent, and whether the course bent to it. */
  readonly bar?: { readonly loPct: number; readonly hiPct: number; readonly used: boolean };
}

export interface CourseRead {
  readonly route: RouteKey;
  readonly label: string;
  readonly bandWb: readonly [number, number];
}

export interface CourseInput {
  readonly course: DrydownAnswer;
  readonly option: CutOptionAnswer;
  readonly route: RouteAnswer | null;
  readonly routes: readonly CourseRead[];
  readonly manner: Manner;
  readonly series: WeatherSeries;
  /** Moisture that the swath started from, wet basis; absent = the line starts at the end of its first hour. */
  readonly initialMoistureWb?: number | undefined;
  /** What passes go over; absent = their loss is not told. */
  readonly swath?: PassedSwath | undefined;
  /** The spread of the moisture where it is known by chance. */
  readonly odds?: CourseOdds | undefined;
  /** A cut kept aside to compare. */
  readonly kept?: KeptCourse | undefined;
  /** Hours across that are to be shared with the board; used where a day of this cut lies in them. */
  readonly span?: { readonly fromMs: number; readonly toMs: number } | undefined;
  /** Every day of the weather is drawn, however close they come to lie; absent = those in which the swath dries. */
  readonly whole?: boolean | undefined;
}

/** Everything that the course chart draws. x in hours from its left edge, y in per cent wet basis. */
export interface CoursePicture {
  readonly fromMs: number;
  readonly hoursAcross: number;
  /** True where the hours across are the board's. */
  readonly shared: boolean;
  /** Days that could be drawn, and whether some of them are not. */
  readonly days: { readonly count: number; readonly more: boolean };
  readonly tissue: readonly CoursePoint[];
  readonly leaf: readonly CoursePoint[];
  readonly stem: readonly CoursePoint[];
  readonly floor: readonly CoursePoint[];
  readonly opinions: readonly { readonly name: string; readonly points: readonly CoursePoint[] }[];
  /** Between the earliest and the latest estimate. */
  readonly range: readonly SpreadPoint[];
  /** Bands of chance, the wider first; empty while there are no odds. */
  readonly chances: readonly (readonly SpreadPoint[])[];
  /** The middle course before the readings; empty without any. */
  readonly before: readonly CoursePoint[];
  readonly kept: KeptLine | null;
  readonly bands: readonly CourseBand[];
  readonly marks: readonly CourseMark[];
  readonly windows: readonly { readonly x0: number; readonly x1: number }[];
  readonly rain: readonly { readonly x0: number; readonly x1: number; readonly rainMm: number }[];
  readonly dew: readonly { readonly x: number }[];
  readonly nights: readonly { readonly x0: number; readonly x1: number }[];
  readonly ticks: readonly CourseTick[];
  readonly sentence: string;
  readonly heading: string;
}
