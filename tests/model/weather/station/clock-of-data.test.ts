import { expect, test } from "vitest";
import { HOUR_MS } from "../../../../model/weather/clock.ts";
import { clearSkyHours } from "../../../../model/weather/radiation.ts";
import { DAKOTA } from "../make-series.ts";
import { type Clock, check, clearFile } from "./clear-sky-files.ts";

// From late winter through the change of the clock on 8 March 2026 into summer time.
const FROM = "2026-01-10T06:00:00Z";
const HOURS = 24 * 150;

const CASES: readonly [Clock, "start" | "end"][] = [
  ["utc", "start"],
  ["utc", "end"],
  ["standard", "start"],
  ["standard", "end"],
  ["daylight", "start"],
  ["daylight", "end"],
];

test.each(CASES)("the sun finds a %s clock with hours named by their %s, to the hour", (clock, label) => {
  const {
    series,
    clock: found,
    questions,
    understood,
  } = check(clearFile({ from: FROM, hours: HOURS, clock, label }));
  expect(questions).toEqual([]);
  expect(found).toMatchObject({ dst: clock === "daylight", label });
  expect(found.centroidH).toBeCloseTo(label === "end" ? 0.5 : -0.5, 1);
  expect(understood.find(({ as }) => as === "dateTime")?.basis).toBe("data");
  // The radiation of every hour stands where it was before the file was written.
  const startMs = Date.parse(series?.hours.startUtc[0] ?? "");
  const { clearSkyWm2 } = clearSkyHours(startMs, 24 * 60, DAKOTA.latitude, DAKOTA.longitude);
  const worst = Math.max(
    ...[...clearSkyWm2].map((value, i) => Math.abs(value - (series?.hours.solarWm2?.[i] ?? value))),
  );
  expect(worst).toBeLessThan(0.2);
});

test("one hour off is found: it is the label, and the answer of the user overrides it with basis user", () => {
  const text = clearFile({ from: FROM, hours: HOURS, clock: "standard", label: "end" });
  const asFound = check(text);
  const corrected = check(text, { label: "start" });
  expect(corrected.clock.label).toBe("start");
  expect(corrected.understood[0]?.basis).toBe("user");
  const first = (report: typeof asFound) => Date.parse(report.series?.hours.startUtc[0] ?? "");
  expect(first(corrected) - first(asFound)).toBe(HOUR_MS);
});

test("a summer alone: whichever of two clocks it is, the hours are the same, and that is said", () => {
  const text = clearFile({ from: "2026-07-01T05:00:00Z", hours: 240, clock: "daylight", label: "start" });
  const { series, understood } = check(text);
  expect(series?.hours.startUtc[0]).toBe("2026-07-01T05:00:00Z");
  expect(understood[0]?.why).toContain("the hours would be the same");
});

test("daylight saving: the hour that spring skips is no gap, the one that autumn shows twice is kept twice", () => {
  const spring = check(
    clearFile({ from: "2026-02-20T06:00:00Z", hours: 24 * 35, clock: "daylight", label: "end" }),
  );
  expect(spring.counts).toMatchObject({ rows: 840, hours: 840, missing: 0 });
  const autumn = check(
    clearFile({ from: "2026-10-10T05:00:00Z", hours: 24 * 45, clock: "daylight", label: "end" }),
  );
  expect(autumn.counts).toMatchObject({ rows: 1080, hours: 1080, missing: 0 });
});

test("an hour lost in autumn is told and not invented; a time that spring skips is left out and told", () => {
  const whole = clearFile({
    from: "2026-10-10T05:00:00Z",
    hours: 24 * 45,
    clock: "daylight",
    label: "end",
  }).split("\n");
  const twice = whole
    .map((line, i) => [line, i] as const)
    .filter(([line]) => line.startsWith("2026-11-01 01:00"));
  expect(twice).toHaveLength(2);
  const lost = check(whole.filter((_, i) => i !== twice[1]?.[1]).join("\n"));
  expect(lost.problems.map(({ code }) => code)).toContain("lost-hour");
  expect(lost.counts).toMatchObject({ rows: 1079, hours: 1080, missing: 1 });

  const spring = clearFile({
    from: "2026-02-20T06:00:00Z",
    hours: 24 * 35,
    clock: "daylight",
    label: "end",
  }).split("\n");
  const at = spring.findIndex((line) => line.startsWith("2026-03-08 03:00"));
  const odd = check([...spring.slice(0, at), "2026-03-08 02:00,20,60,2,0,0", ...spring.slice(at)].join("\n"));
  expect(odd.problems[0]).toMatchObject({ code: "skipped-hour", row: at + 1 });
});

test("without sun the clock is asked for, then the label; nothing is guessed", () => {
  const text = clearFile({
    from: "2026-07-01T05:00:00Z",
    hours: 96,
    clock: "standard",
    label: "end",
    header: "Timestamp,Temp (°C),RH (%),Wind (m/s),Cloud (%),Rain (mm)",
    row: (time) => `${time},20,60,2,40,0`,
  });
  const asked = check(text);
  expect(asked.series).toBeNull();
  expect(asked.questions).toMatchObject([{ id: "clock", choices: ["utc", "standard", "daylight"] }]);
  const next = check(text, { clock: "standard" });
  expect(next.questions).toMatchObject([{ id: "label" }]);
  const { series, clock } = check(text, { clock: "standard", label: "end" });
  expect(series?.hours.startUtc[0]).toBe("2026-07-01T05:00:00Z");
  expect(clock).toMatchObject({ dst: false, label: "end", centroidH: null });
});

test("a longitude that no clock fits is told, not fitted", () => {
  const site = { ...DAKOTA, longitude: 160 };
  const text = clearFile({ from: FROM, hours: HOURS, clock: "standard", label: "end" });
  const report = check(text, {}, { site, windHeightM: 2 });
  expect(report.series).toBeNull();
  expect(report.questions.map(({ id }) => id)).toEqual(["clock"]);
  expect(report.questions[0]?.ask).toContain("no clock fits");
});
