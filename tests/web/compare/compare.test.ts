import { describe, expect, test } from "vitest";
import { findWindows } from "../../../model/harvest/index.ts";
import { HOUR_MS } from "../../../model/weather/clock.ts";
import { compareRows } from "../../../web/compare/compare-rows.ts";
import { compareSentence, compareTargets, reachMs } from "../../../web/compare/compare-sentence.ts";
import { differences } from "../../../web/compare/differences.ts";
import { presetCut, presetQuestion, presetsFor } from "../../../web/compare/presets.ts";
import { chosen } from "../../../web/state/choice.ts";
import { DEMO_INPUTS, type Inputs } from "../../../web/state/inputs.ts";
import { PRESETS, type Preset } from "../../../web/state/preset.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import type { Kept } from "../../../web/state/state.ts";
import { courseOf } from "../../../web/worker/compute.ts";
import { metric24, us12 } from "../../support/manners.ts";
import { readSample } from "../../support/samples.ts";

const sample = readSample("settled-dry");
const source: Kept["source"] = { kind: "sample", ...sample };
const manner = metric24(sample.series.site.timeZone);

const typed = (text: string) => ({ text, units: "metric" as const });

/** A cut as the page would keep it: the row of this place in the board, on its way to dry hay. */
function cutOf(inputs: Inputs, row = 0): Kept {
  const { question } = readInputs(inputs);
  if (question === null) throw new Error("the inputs are a question");
  const request = { ...question, weather: sample.series };
  const outcome = findWindows(request);
  if (!outcome.ok) throw new Error("no board");
  const optionId = outcome.value.options[row]?.id ?? "";
  const choice = chosen(outcome.value, { optionId, route: "dry-hay" });
  const course = choice && courseOf(request, choice);
  if (!choice || !course?.ok) throw new Error("no course");
  const { option, route } = choice;
  return { source, inputs, request, option, route: route?.route ?? null, course: course.value };
}

const wide = cutOf(DEMO_INPUTS);
const windrow = cutOf({ ...DEMO_INPUTS, texts: { ...DEMO_INPUTS.texts, swathWidthM: typed("1.2") } });

/** Hours by which the first is sooner than the second at a moisture. */
function soonerH(a: Kept, b: Kept, wb: number): number {
  return Math.round(((reachMs(b, wb) ?? Number.NaN) - (reachMs(a, wb) ?? Number.NaN)) / HOUR_MS);
}

describe("the sentence", () => {
  test("names the one difference and the hours to each moisture", () => {
    const sentence = compareSentence(wide, windrow, "calendar", manner);
    expect(sentence).toMatch(/^Wide 70 % against windrow \d+ %: /);
    for (const wb of compareTargets(wide)) {
      const hours = soonerH(wide, windrow, wb);
      expect(hours).toBeGreaterThanOrEqual(0);
      const pct = Math.round(wb * 100);
      expect(sentence).toContain(hours === 0 ? `as soon to ${pct} %` : `${hours} h sooner to ${pct} %`);
    }
  });

  test("turns round with its sides", () => {
    const sentence = compareSentence(windrow, wide, "calendar", manner);
    expect(sentence).toMatch(/^Windrow 40 % against wide 70 %: .*h later to 16 %\.$/);
  });

  test("two widths of one kind go by their share", () => {
    const spread = cutOf({ ...DEMO_INPUTS, texts: { ...DEMO_INPUTS.texts, swathWidthM: typed("2.7") } });
    expect(compareSentence(spread, wide, "calendar", manner)).toMatch(/^Spread 90 % against wide 70 %: /);
  });

  test("conditioning, tedding and ground are called what they are", () => {
    const other = cutOf({ ...DEMO_INPUTS, conditioning: "none", ted: "morning-after", soil: "wet" });
    const words = differences(wide, other, manner).map(({ now, kept }) => [now, kept]);
    expect(words).toEqual([
      ["rollers", "unconditioned"],
      ["no tedding", expect.stringMatching(/^tedded \w{3} 10:00$/)],
      ["moist ground", "wet ground"],
    ]);
    expect(compareSentence(wide, other, "calendar", manner)).toMatch(
      /^Rollers, no tedding and moist ground against unconditioned, tedded \w+ 10:00 and wet ground: /,
    );
  });

  test("another cut hour counts by the calendar, or from each cut", () => {
    const later = cutOf(DEMO_INPUTS, 1);
    const apartH =
      (Date.parse(later.option.courseCutUtc ?? "") - Date.parse(wide.option.courseCutUtc ?? "")) / HOUR_MS;
    const target = compareTargets(wide)[0] ?? 0;
    const byCalendar = soonerH(wide, later, target);
    const pct = Math.round(target * 100);
    expect(compareSentence(wide, later, "calendar", manner)).toMatch(
      new RegExp(`^Cut \\w+day 09:00 against cut \\w+day 13:00: ${byCalendar} h sooner to ${pct} %`),
    );
    const fromCut = byCalendar - apartH;
    const words = fromCut === 0 ? "as soon" : `${Math.abs(fromCut)} h ${fromCut > 0 ? "sooner" : "later"}`;
    expect(compareSentence(wide, later, "cut", manner)).toContain(
      `: counted from each cut, ${words} to ${pct} %`,
    );
    expect(compareSentence(wide, later, "calendar", us12(manner.zone))).toMatch(
      /^Cut \w+day 9 am against cut \w+day 1 pm/,
    );
  });

  test("what is never reached is said, not counted", () => {
    const never: Kept = {
      ...windrow,
      course: {
        ...windrow.course,
        targets: [],
        hours: {
          ...windrow.course.hours,
          moistureWb: windrow.course.hours.moistureWb.map((wb) => Math.max(wb, 0.3)),
        },
      },
    };
    expect(compareSentence(wide, never, "calendar", manner)).toMatch(
      /gets to 16 % where the kept cut does not\.$/,
    );
    expect(compareSentence(never, wide, "calendar", manner)).toMatch(
      /does not get to 16 % where the kept cut does\.$/,
    );
    expect(compareSentence({ ...never, inputs: wide.inputs }, never, "calendar", manner)).not.toMatch(/NaN/);
  });

  test("a cut beside itself says so", () => {
    expect(compareSentence(wide, wide, "calendar", manner)).toBe(
      "The chosen cut is the kept one. Change a lever or choose another row.",
    );
  });
});

test("the columns hold only what differs of the treatment, then hours, windows and rain", () => {
  const rows = compareRows(wide, windrow, manner);
  expect(rows.map(({ head }) => head)).toEqual([
    "Cut",
    "Width",
    // The windrow needs no rake: it follows from the width, and the sentence leaves it out.
    "Raking",
    "To 70 %",
    "To 60 %",
    "To 16 %",
    "Wilted chop, first window",
    "Wrapped bales, first window",
    "Dry hay, first window",
  ]);
  expect(rows[1]).toEqual({ head: "Width", now: "wide 70 %", kept: "windrow 40 %" });
  expect(rows[5]?.now).toMatch(/^\d+ h, \w+day \d\d:\d[05]$/);
  for (const text of rows.slice(6).flatMap(({ now, kept }) => [now, kept]))
    expect(text).toMatch(
      /^(none in this weather|\w+day .* to .*, (no rain|.* of rain) on it by the forecast)$/,
    );
});

describe("presets", () => {
  /** The answer that the page's worker gives, without a worker. */
  function workedOut(cut: Kept, preset: Preset): Kept | null {
    const question = presetQuestion(cut, preset, manner);
    if (question === null) return null;
    const { asked, optionId, route } = question;
    const outcome = findWindows(asked);
    const choice = outcome.ok ? chosen(outcome.value, { optionId, route }) : null;
    const course = choice && courseOf(asked, choice);
    if (!outcome.ok || !choice || !course?.ok) return null;
    const row = { optionId: choice.option.id, route: choice.route?.route ?? null, course: course.value };
    return presetCut(cut, question, outcome.value, row);
  }

  test("are offered where they would change something", () => {
    expect(presetsFor(wide)).toEqual(["windrow", "unconditioned", "later"]);
    expect(presetsFor(windrow)).toEqual(["unconditioned", "later"]);
    expect(presetsFor(cutOf({ ...DEMO_INPUTS, ted: "after-cut" }))).toEqual([...PRESETS]);
  });

  test.each([
    ["windrow", /^Wide 70 % against windrow \d+ %: /],
    ["unconditioned", /^Rollers against unconditioned: /],
    ["later", /^Cut \w+day 09:00 against cut \w+day 13:00: /],
  ] as const)("%s is the same cut with that one difference", (preset, sentence) => {
    const other = workedOut(wide, preset);
    if (!other) throw new Error("not worked out");
    expect(differences(wide, other, manner).filter(({ follows }) => !follows)).toHaveLength(1);
    expect(compareSentence(wide, other, "calendar", manner)).toMatch(sentence);
    expect(other.route).toBe("dry-hay");
  });

  test("a cut that is not offered is not made up", () => {
    const late = cutOf({ ...DEMO_INPUTS, texts: { ...DEMO_INPUTS.texts, cutHours: typed("17") } });
    expect(workedOut(late, "later")).toBeNull();
  });
});

test("counting the chances of one side changes nothing in what both sides are told by", () => {
  const wetter: Kept = {
    ...wide,
    option: {
      ...wide.option,
      routes: wide.option.routes.map((route) => ({ ...route, rainMm: { mean: 8, p90: 20 } })),
    },
  };
  expect(compareRows(wetter, windrow, manner)).toEqual(compareRows(wide, windrow, manner));
  const wet = compareRows({ ...wide, course: rainedOn(wide) }, windrow, manner);
  expect(wet.find(({ head }) => head === "Dry hay, first window")?.now).toMatch(
    /, 2 mm of rain on it by the forecast$/,
  );
});

/** The course with 2 mm in its first hour. */
function rainedOn({ course }: Kept): Kept["course"] {
  const rainMm = course.hours.rainMm.map((_, i) => (i === 0 ? 2 : 0));
  return { ...course, hours: { ...course.hours, rainMm } };
}
