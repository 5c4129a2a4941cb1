import { HOUR_MS } from "../../model/weather/clock.ts";
import { clockText, fullText, utcMs } from "../format/farm-time.ts";
import type { CourseInput } from "./to-course.ts";

/** The table of the course: heads and one row of text an hour. */
export function courseRows({ course, route, manner }: CourseInput): {
  readonly heads: readonly string[];
  readonly rows: readonly (readonly string[])[];
} {
  const { hours, secondOpinions } = course;
  const pct = (wb: number | undefined) => (wb === undefined ? "–" : (wb * 100).toFixed(1));
  const mm = (value: number | undefined) => (value === undefined ? "–" : value.toFixed(2));
  const opinionAt = secondOpinions.map(
    ({ hours: own }) => new Map(own.startUtc.map((start, i) => [utcMs(start), own.moistureWb[i]])),
  );
  const heads = [
    "Hour",
    "Moisture %",
    "Leaf %",
    "Stem %",
    "Free water mm",
    "Air floor %",
    "Rain mm",
    "Operation",
    ...secondOpinions.map(({ name }) => `${name} %`),
  ];
  const rows = hours.startUtc.map((start, i) => {
    const startMs = utcMs(start);
    const passes = (route?.operations ?? []).filter(({ atUtc }) => {
      const ms = utcMs(atUtc);
      return ms >= startMs && ms < startMs + HOUR_MS;
    });
    return [
      fullText(start, manner),
      pct(hours.moistureWb[i]),
      pct(hours.leafMoistureWb[i]),
      pct(hours.stemMoistureWb[i]),
      mm(hours.freeWaterMm[i]),
      pct(hours.equilibriumWb[i]),
      (hours.rainMm[i] ?? 0).toFixed(1),
      passes.map(({ kind, atUtc }) => `${kind} ${clockText(atUtc, manner)}`).join(", "),
      ...opinionAt.map((byMs) => pct(byMs.get(startMs))),
    ];
  });
  return { heads, rows };
}
