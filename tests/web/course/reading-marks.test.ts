import { expect, test } from "vitest";
import type { ReadingsAnswer } from "../../../model/drying/answer.ts";
import { findWindows } from "../../../model/harvest/index.ts";
import sample from "../../../weather-samples/settled-dry.json" with { type: "json" };
import { courseRows } from "../../../web/course/course-rows.ts";
import { changesAhead, rateSentence } from "../../../web/course/reading-marks.ts";
import { toCourse } from "../../../web/course/to-course.ts";
import { toldMs } from "../../../web/course/told-ms.ts";
import { dayClockText } from "../../../web/format/farm-time.ts";
import { chosen } from "../../../web/state/choice.ts";
import { DEMO_INPUTS } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import type { Sample } from "../../../web/state/state.ts";
import { courseOf } from "../../../web/worker/compute.ts";

const { series } = sample as Sample;
const manner = { units: "metric", hour12: false, locale: "en-GB", zone: series.site.timeZone } as const;

function input(
  moistureWb: number | null,
  more: { readonly hours?: number; readonly confirmed?: boolean } = {},
) {
  const { hours = 24, ...said } = more;
  const { question } = readInputs(DEMO_INPUTS);
  if (question === null) throw new Error("no question");
  const request = { ...question, weather: series, cutHours: [9] };
  const outcome = findWindows(request);
  if (!outcome.ok) throw new Error("no answer");
  const choice = chosen(outcome.value, {
    optionId: outcome.value.best.byRoute["dry-hay"] ?? "",
    route: "dry-hay",
  });
  if (!choice) throw new Error("no choice");
  const cutMs = Date.parse(choice.option.courseCutUtc ?? "");
  const atUtc = new Date(cutMs + hours * 3_600_000).toISOString();
  const readings = moistureWb === null ? [] : [{ atUtc, method: "microwave", moistureWb, ...said } as const];
  const course = courseOf(request, choice, undefined, 60, readings);
  if (!course?.ok) throw new Error("no course");
  return {
    course: course.value,
    ...choice,
    routes: [],
    manner,
    series,
    initialMoistureWb: request.swath.initialMoistureWb,
    odds: course.value.odds?.moistureWb,
  };
}

test("a reading is a mark with its error, and the middle before it stays beside the bent one", () => {
  const bent = input(0.42);
  const picture = toCourse(bent);
  const mark = picture.marks.find(({ kind }) => kind === "reading");
  expect(mark).toMatchObject({ label: "Microwave 42 %", bar: { used: true } });
  expect(mark?.y).toBeCloseTo(42, 9);
  // By hand: the method's 1.5 points and 3 points between places over the root of three grabs.
  expect((mark?.bar?.hiPct ?? 0) - 42).toBeCloseTo(Math.hypot(1.5, 3 / Math.sqrt(3)), 9);
  expect(picture.before.length).toBeGreaterThan(48);
  const plain = toCourse(input(null));
  const before = new Map(plain.tissue.map(({ x, y }) => [x, y]));
  // The same draws made fourfold: near, not equal.
  for (const { x, y } of picture.before) expect(Math.abs(y - (before.get(x) ?? Number.NaN))).toBeLessThan(6);
  expect(picture.sentence).toContain("Microwave 42 %");
  expect(picture.sentence).toMatch(/8 in 10 courses: \d+ to \d+ %\./);
  // The chosen route's own target is told of first.
  expect(bent.course.odds?.readings?.changes[0]?.targetWb).toBe(bent.course.targets[0]?.targetWb);
  expect(bent.course.targets[0]?.targetWb).toBeLessThan(0.3);
  expect(rateSentence(bent.course.odds, manner)).toMatch(
    /^By its readings this field dries 0\.\d+ times as fast/,
  );
  const { heads, rows } = courseRows(bent);
  const at = heads.indexOf("Reading %");
  expect(rows.filter((row) => row[at] !== "")).toHaveLength(1);
});

test("one moment is told by one rule, whichever text tells it", () => {
  const at = (text: string) => toldMs(Date.parse(text));
  expect(at("2026-07-01T14:56:00Z")).toBe(Date.parse("2026-07-01T15:00:00Z"));
  // A label is to the second, the hours beside it are not.
  expect(at("2026-07-01T14:55:00.600Z")).toBe(Date.parse("2026-07-01T14:55:00Z"));
  const bent = input(0.42);
  const [change] = bent.course.odds?.readings?.changes ?? [];
  const [target] = bent.course.targets;
  if (!change || !target?.reached) throw new Error("no change");
  const cutMs = Date.parse(bent.option.courseCutUtc ?? "");
  const told = dayClockText(toldMs(target.reachedUtc), manner);
  expect(told).toMatch(/:\d[05]$/);
  const texts = changesAhead(bent.course.odds?.readings as ReadingsAnswer, cutMs, manner).map(
    ({ text }) => text,
  );
  expect(texts[0]).toContain(`is now due ${told}`);
});

test("without a reading there is neither mark nor earlier line, and one that is questioned says so", () => {
  const plain = toCourse(input(null));
  expect(plain.before).toEqual([]);
  expect(plain.marks.some(({ kind }) => kind === "reading")).toBe(false);
  expect(rateSentence(input(null).course.odds, manner)).toBeNull();
  const questioned = toCourse(input(0.91));
  expect(questioned.marks.find(({ kind }) => kind === "reading")?.bar?.used).toBe(false);
  expect(questioned.before).toEqual([]);
  expect(questioned.sentence).toContain("questioned and not used");
});

test("after a reading no time before it is told as still to come", () => {
  const routes = [
    { route: "wilted-chop", label: "Wilted chop", bandWb: [0.6, 0.65] },
    { route: "dry-hay", label: "Dry hay", bandWb: [0.12, 0.18] },
  ] as const;
  const told = (wb: number, hours: number) => {
    const bent = { ...input(wb, { hours, confirmed: true }), routes };
    return { bent, sentence: toCourse(bent).sentence };
  };
  const wet = told(0.9, 50);
  expect(wet.bent.course.odds?.readings?.readings[0]?.used).toBe(true);
  expect(wet.sentence).toMatch(
    /The last reading was wetter than wilted chop \(60–65 %\).*, and than the course was: no time is told for (it|them)\. Measure again\./,
  );
  expect(wet.sentence).not.toMatch(/Reaches wilted chop|Estimates put wilted chop/);
  const changes = wet.bent.course.odds?.readings?.changes ?? [];
  expect(changes.some(({ afterHours }) => afterHours !== null && afterHours < 50)).toBe(true);
  for (const { afterHours, text } of changes)
    expect(text.includes("is now due")).toBe(afterHours !== null && afterHours >= 50);
  const dry = told(0.3, 30);
  expect(dry.sentence).toContain("Down to wilted chop (60–65 %) by the last reading.");
  expect(dry.sentence).toMatch(/Reaches dry hay \(12–18 %\)/);
  expect(dry.sentence).not.toContain("Reaches wilted chop");
});
