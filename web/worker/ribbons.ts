import { type Course, isWithoutRain, runCourse, secondOpinions } from "../../model/drying/index.ts";
import type { CutOptionAnswer, DryingTools, WindowsAnswer } from "../../model/harvest/index.ts";
import { bestRoute } from "../state/choice.ts";

/** The drying swath of one row as the board draws it, hour by hour from `startMs`. */
export interface SwathRibbon {
  /** Start of the first hour, UTC ms. */
  readonly startMs: number;
  /** Tissue moisture at the end of each hour, wet basis. */
  readonly moistureWb: Float64Array;
  /** Free water at the end of each hour, mm. */
  readonly freeWaterMm: Float64Array;
}

interface Pass {
  readonly kind: string;
  readonly atMs: number;
}

function keyOf(cutMs: number, passes: readonly Pass[]): string {
  return `${cutMs} ${passes.map(({ kind, atMs }) => `${kind}@${atMs}`).join(" ")}`;
}

export interface RecordedDrying {
  readonly tools: DryingTools;
  /** The course of a row under the passes of its best route; null for a row that stands. */
  readonly ribbonOf: (option: CutOptionAnswer) => SwathRibbon | null;
}

/** The drying model with a memory: the courses that the windows were read from are drawn without a second run. */
export function recordedDrying(): RecordedDrying {
  const courses = new Map<string, Course>();
  return {
    tools: {
      course: (weather, swath, cutUtcMs, operations, p) => {
        const course = runCourse(weather, swath, cutUtcMs, operations, p);
        // The same cut is also run without its rain: that is nothing to draw.
        if (!isWithoutRain(weather))
          courses.set(
            keyOf(
              cutUtcMs,
              operations.map(({ kind, atUtcMs }) => ({ kind, atMs: atUtcMs })),
            ),
            course,
          );
        return course;
      },
      opinions: secondOpinions,
    },
    ribbonOf: (option) => {
      const route = bestRoute(option);
      if (option.courseCutUtc === null) return null;
      const passes = (route?.operations ?? []).map(({ kind, atUtc }) => ({ kind, atMs: Date.parse(atUtc) }));
      const course = courses.get(keyOf(Date.parse(option.courseCutUtc), passes));
      if (!course) return null;
      // Copies: a view would carry the whole block of the course along to the page.
      return {
        startMs: course.startUtcMs,
        moistureWb: course.moistureWb.slice(),
        freeWaterMm: course.freeWaterMm.slice(),
      };
    },
  };
}

type RibbonOf = RecordedDrying["ribbonOf"];

/** The swath of each row that has one, by its id. */
export function ribbonsOf(
  ribbonOf: RibbonOf,
  options: readonly CutOptionAnswer[],
): Readonly<Record<string, SwathRibbon>> {
  const ribbons: Record<string, SwathRibbon> = {};
  for (const option of options) {
    const ribbon = ribbonOf(option);
    if (ribbon) ribbons[option.id] = ribbon;
  }
  return ribbons;
}

/** The swaths of rows whose best route is another now: its passes may be others too. */
export function turnedRibbons(
  ribbonOf: RibbonOf,
  before: Pick<WindowsAnswer, "options">,
  now: Pick<WindowsAnswer, "options">,
): Readonly<Record<string, SwathRibbon>> {
  const routes = new Map(before.options.map((option) => [option.id, bestRoute(option)?.route]));
  const turned = now.options.filter((option) => bestRoute(option)?.route !== routes.get(option.id));
  return ribbonsOf(ribbonOf, turned);
}
