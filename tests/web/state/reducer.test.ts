import { expect, test } from "vitest";
import { findWindows } from "../../../model/harvest/index.ts";
import type { WeatherFile } from "../../../model/weather/station/weather-file.ts";
import type { Action } from "../../../web/state/action.ts";
import { DEMO_INPUTS } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import { FIRST_SAMPLE, reduce } from "../../../web/state/reducer.ts";
import { firstState, type State } from "../../../web/state/state.ts";
import type { Tell } from "../../../web/worker/messages.ts";
import { readSample } from "../../support/samples.ts";

const samples = [readSample("settled-dry"), readSample(FIRST_SAMPLE)];

function after(state: State, ...actions: Action[]): State {
  return actions.reduce(reduce, state);
}

const opened = firstState({
  timeZone: "Europe/Berlin",
  locale: "de-DE",
  nowMs: Date.UTC(2026, 6, 1),
  online: true,
  preferences: { units: "metric", theme: "system" },
  inputs: DEMO_INPUTS,
});
const start = after(opened, { kind: "samples", samples });

function boardTell(state: State, id: number): Tell {
  const { question } = readInputs(state.inputs);
  if (question === null || state.source === null) throw new Error("no question");
  const request = { ...question, weather: state.source.series };
  const outcome = findWindows(request);
  if (!outcome.ok) throw new Error("no answer");
  return { kind: "board", id, request, answer: outcome.value, course: null, ribbons: {} };
}

function asked(state: State, id: number): Action {
  if (state.source === null) throw new Error("no weather");
  return { kind: "asked", id, source: state.source, inputs: state.inputs };
}

const shown = after(start, asked(start, 1), { kind: "told", tell: boardTell(start, 1) });

/** What the reader of files tells, with nothing to tell but what is given. */
function report({
  series = null,
  missing = 0,
  problems = [],
  questions = [],
}: Partial<Pick<WeatherFile, "series" | "problems" | "questions">> & { missing?: number }): WeatherFile {
  return {
    series,
    problems,
    questions,
    understood: [],
    clock: { timeZone: "UTC", dst: false, label: "start", centroidH: null },
    counts: { rows: 0, hours: 0, filled: 0, missing },
    preview: [],
    gaps: [],
    headerKey: "",
  };
}

test("opens on the sample whose weather makes a choice hard", () => {
  expect(start.source).toMatchObject({ kind: "sample", id: FIRST_SAMPLE });
  expect(start.upload.place.timeZone).toBe("Europe/Berlin");
});

test("an answer becomes the picture", () => {
  expect(shown.asked).toBeNull();
  expect(shown.picture?.answer.options.length).toBeGreaterThan(0);
});

test("a stale answer is dropped", () => {
  const later = after(shown, asked(shown, 3));
  expect(reduce(later, { kind: "told", tell: boardTell(start, 2) })).toBe(later);
});

test("a refusal keeps the last picture and says why; the next answer takes it away", () => {
  const issues = [{ path: "weather", code: "x", message: "weather: got nothing" }];
  const refused = after(shown, asked(shown, 2), { kind: "told", tell: { kind: "refused", id: 2, issues } });
  expect(refused.picture).toBe(shown.picture);
  expect(refused.refused).toEqual(issues);
  const again = after(refused, asked(shown, 3), { kind: "told", tell: boardTell(start, 3) });
  expect(again.refused).toEqual([]);
});

test("what is typed stays as typed, and the picture with it", () => {
  const typed = reduce(shown, { kind: "text", field: "moisturePct", text: "0.78" });
  expect(typed.inputs.texts.moisturePct.text).toBe("0.78");
  expect(typed.picture).toBe(shown.picture);
});

test("a selection that the new answer still has is kept, another is not", () => {
  const optionId = shown.picture?.answer.options[3]?.id ?? "";
  const kept = after(shown, { kind: "select", selection: { optionId, route: null } }, asked(shown, 2), {
    kind: "told",
    tell: boardTell(shown, 2),
  });
  expect(kept.selection?.optionId).toBe(optionId);
  const other = after(kept, { kind: "sample", id: "settled-dry" });
  expect(other.selection).toBeNull();
});

test("a refused file leaves the weather as it is; one that was read becomes it once it is used", () => {
  const { series } = readSample("settled-dry");
  const checking = reduce(shown, { kind: "checking", name: "a.csv" });
  const problem = {
    row: 3,
    column: "airTempC",
    value: "99",
    limit: "at most 60 °C",
    code: "out-of-range",
    severity: "error",
    message: "row 3",
  } as const;
  const bad = reduce(checking, {
    kind: "checked",
    name: "a.csv",
    report: report({ problems: [problem] }),
  });
  expect(bad.source).toBe(shown.source);
  expect(bad.upload.problems).toEqual([problem]);
  const good = reduce(checking, {
    kind: "checked",
    name: "a.csv",
    report: report({ series, missing: 2 }),
  });
  expect(good.source).toBe(shown.source);
  expect(reduce(good, { kind: "use-file" }).source).toMatchObject({
    kind: "upload",
    name: "a.csv",
    missing: 2,
  });
  expect(reduce(shown, { kind: "checked", name: "old.csv", report: report({ series }) })).toBe(shown);
});

test("a station's file is looked at before it is used", () => {
  const { series } = readSample("settled-dry");
  const checking = reduce(shown, { kind: "checking", name: "station.csv" });
  const preview = [{ row: 2, wall: "2026-06-10 00:00", values: { airTempC: 12 } }];
  const read = reduce(checking, {
    kind: "checked",
    name: "station.csv",
    report: { ...report({ series, missing: 3 }), preview },
  });
  expect(read.source).toBe(shown.source);
  expect(read.upload.pending).toMatchObject({ name: "station.csv", missing: 3 });
  const used = reduce(read, { kind: "use-file" });
  expect(used.source).toMatchObject({ kind: "upload", name: "station.csv", missing: 3 });
  expect(used.upload).toMatchObject({ pending: null, report: null });
  expect(reduce(used, { kind: "use-file" })).toBe(used);
  expect(reduce(read, { kind: "picked", errors: {} }).upload).toMatchObject({ pending: null, report: null });
});

test("what was answered about a file is forgotten when another is picked", () => {
  const question = { id: "airTempC", column: "airTempC", ask: "degC or degF?", choices: ["degC", "degF"] };
  const asked = reduce(reduce(start, { kind: "checking", name: "a.csv" }), {
    kind: "checked",
    name: "a.csv",
    report: report({ questions: [question] }),
  });
  expect(asked.upload.questions).toEqual([question]);
  const answered = reduce(asked, { kind: "answer", id: "airTempC", choice: "degF" });
  expect(answered.upload.answers).toEqual({ airTempC: "degF" });
  expect(reduce(answered, { kind: "picked", errors: {} }).upload).toMatchObject({
    answers: {},
    questions: [],
  });
});

test("mending a place field takes its error away and no other", () => {
  const wrong = reduce(start, { kind: "place-errors", errors: { latitude: "Got 444", file: "none" } });
  const mended = reduce(wrong, { kind: "place", field: "latitude", text: "44" });
  expect(mended.upload.errors).toEqual({ file: "none" });
});

test("undo takes back a change, and a typed word at once", () => {
  const changed = after(
    start,
    { kind: "choice", choice: { conditioning: "none" } },
    { kind: "text", field: "yieldTHa", text: "4" },
    { kind: "text", field: "yieldTHa", text: "4.2" },
  );
  expect(changed.inputs.texts.yieldTHa).toMatchObject({ text: "4.2", units: "metric" });
  const once = after(changed, { kind: "undo" });
  expect(once.inputs.texts.yieldTHa.text).toBe("3.8");
  expect(once.inputs.conditioning).toBe("none");
  const twice = after(once, { kind: "undo" });
  expect(twice.inputs).toEqual(start.inputs);
  expect(after(twice, { kind: "undo" })).toBe(twice);
});

test("a change of units changes no value; what is typed then is in the new units", () => {
  const us = after(start, { kind: "preferences", change: { units: "us" } });
  expect(us.inputs).toBe(start.inputs);
  const typed = after(us, { kind: "text", field: "areaHa", text: "16" });
  expect(typed.inputs.texts.areaHa).toMatchObject({ text: "16", units: "us" });
  expect(readInputs(typed.inputs).question?.field.areaHa).toBeCloseTo(16 * 0.40468564224, 9);
});

test("a file that gives no board leaves the weather of the board, and says why beside the file", () => {
  const { series } = readSample("settled-dry");
  const source = { kind: "upload", name: "short.csv", series, missing: 0 } as const;
  const asking = after(
    shown,
    { kind: "source", source },
    { kind: "asked", id: 9, source, inputs: shown.inputs },
  );
  const issues = [{ path: "weather.hours", code: "too-short", message: "got 20 usable hours" }];
  const refused = after(asking, { kind: "told", tell: { kind: "refused", id: 9, issues } });
  expect(refused.source).toBe(shown.source);
  expect(refused.picture).toBe(shown.picture);
  expect(refused.upload.errors.file).toMatch(/short\.csv cannot be used: got 20 usable hours/);
});

test("members that come after their forecast take its place; what was chosen stays, and other weather is left alone", () => {
  const place = { latitude: 44.3, longitude: -98.2, elevationM: null, timeZone: null, provider: null };
  const { series } = readSample("settled-dry");
  const got = after(
    opened,
    { kind: "forecast-asked", place },
    { kind: "forecast-got", place, forecast: { series, notes: [] } },
    { kind: "select", selection: { optionId: "a" } as never },
  );
  const forecast = { series: { ...series, members: [{}] }, notes: [{ code: "ensemble", text: "1 member." }] };
  const grown = after(got, { kind: "members-got", place, forecast });
  expect(grown.source).toMatchObject({ kind: "forecast", place, notes: forecast.notes, observed: null });
  expect(grown.source?.series.members).toHaveLength(1);
  expect(grown.selection).toEqual(got.selection);
  const other = after(got, { kind: "samples", samples }, { kind: "sample", id: FIRST_SAMPLE });
  expect(after(other, { kind: "members-got", place, forecast })).toBe(other);
  expect(after(got, { kind: "members-got", place: { ...place }, forecast })).toBe(got);
});
