import { describe, expect, test } from "vitest";
import type { CutOptionAnswer, RouteAnswer } from "../../../model/harvest/index.ts";
import { findWindows } from "../../../model/harvest/index.ts";
import { HOUR_MS, localParts } from "../../../model/weather/clock.ts";
import { type MovedPass, movedPass, type PassPlace } from "../../../web/course/moved-pass.ts";
import { isGone } from "../../../web/course/to-course.ts";
import { DEMO_INPUTS, type Inputs } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import { metric24, us12 } from "../../support/manners.ts";
import { readSample } from "../../support/samples.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";

type Series = ReturnType<typeof readSample>["series"];

/** The rows of the page for these inputs in this weather. */
function rowsOf(inputs: Inputs, series: Series) {
  const { question } = readInputs(inputs);
  if (question === null) throw new Error("the inputs are a question");
  const outcome = findWindows({ ...question, weather: series });
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join("; "));
  return outcome.value;
}

function placeOf(inputs: Inputs, series: Series, wanted: (option: CutOptionAnswer) => boolean): PassPlace {
  const answer = rowsOf(inputs, series);
  const option = answer.options.find(wanted);
  const route = option?.routes.find((each) => each.route === "dry-hay");
  if (!option || !route) throw new Error("no such row");
  const endMs = Date.parse(answer.usableUntilUtc);
  return { inputs, option, route, endMs, manner: metric24(series.site.timeZone) };
}

function passOf(route: RouteAnswer, kind: "ted" | "rake"): string {
  const pass = route.operations.find((each) => each.kind === kind);
  if (!pass) throw new Error(`the row has no pass to ${kind}`);
  return pass.atUtc;
}

function good(moved: MovedPass) {
  if (!moved.ok) throw new Error(moved.reason);
  return moved;
}

/** Where the model puts the pass of the same row once it is asked with the new inputs. */
function placedBy(inputs: Inputs, series: Series, id: string, kind: "ted" | "rake"): number {
  const option = rowsOf(inputs, series).options.find((each) => each.id === id);
  const route = option?.routes.find((each) => each.route === "dry-hay");
  if (!route) throw new Error("the row is gone");
  return Date.parse(passOf(route, kind));
}

const { series } = readSample("settled-dry");
const grass: Inputs = { ...DEMO_INPUTS, crop: "cool-season-grass" };
const withBoth = (option: CutOptionAnswer) =>
  option.routes.some(
    ({ route, operations }) =>
      route === "dry-hay" && ["ted", "rake"].every((kind) => operations.some((pass) => pass.kind === kind)),
  );
const place = placeOf(grass, series, withBoth);
const cutMs = Date.parse(place.option.courseCutUtc ?? "");
const { zone } = place.manner;

describe("tedding", () => {
  const now = passOf(place.route, "ted");

  test("on the day after the cut goes by the hour of day, and the model puts it there", () => {
    const to = Date.parse(now) - 2 * HOUR_MS;
    const moved = good(movedPass(place, "ted", now, to));
    expect(moved.inputs.ted).toBe("morning-after");
    expect(moved.inputs.texts.tedHour.text).toBe(String(localParts(to, zone).hour));
    expect(moved.atMs).toBe(to);
    expect(placedBy(moved.inputs, series, place.option.id, "ted")).toBe(to);
    expect(moved.rule).toBe("Ted on the day after the cut, 08:00");
  });

  test("on the day of the cut goes by whole hours after it", () => {
    const moved = good(movedPass(place, "ted", now, cutMs + 2.6 * HOUR_MS));
    expect(moved.inputs.ted).toBe("after-cut");
    expect(moved.inputs.texts.tedAfterH).toEqual({ text: "3", units: "metric" });
    expect(moved.atMs).toBe(cutMs + 3 * HOUR_MS);
    expect(placedBy(moved.inputs, series, place.option.id, "ted")).toBe(moved.atMs);
    expect(moved.rule).toBe("Ted 3 h after the cut");
  });

  test("before the cut, after the window and past the weather is refused in words", () => {
    const early = movedPass(place, "ted", now, cutMs - HOUR_MS);
    expect(early.ok ? "" : early.reason).toMatch(
      /^Ted after the cut: half the field is down at \w+day \d\d:00\.$/,
    );
    const windowMs = Date.parse(place.route.windows[0]?.startUtc ?? "");
    const late = movedPass(place, "ted", now, windowMs + 2 * HOUR_MS);
    expect(late.ok ? "" : late.reason).toMatch(
      /^Tedding comes before the window, which opens \w+day \d\d:\d\d\.$/,
    );
    const past = movedPass(place, "ted", now, place.endMs);
    expect(past.ok ? "" : past.reason).toMatch(/^The weather ends/);
  });

  test("is said on the reader's clock", () => {
    const moved = good(
      movedPass({ ...place, manner: us12(zone) }, "ted", now, Date.parse(now) + 3 * HOUR_MS),
    );
    expect(moved.rule).toBe("Ted on the day after the cut, 1 pm");
  });
});

describe("a crop that is in before the pass", () => {
  const chop = place.option.routes.find(({ windows: [first] }) => first !== undefined) ?? place.route;
  const closed = { ...chop, windows: chop.windows.slice(0, 1) };
  const endMs = Date.parse(closed.windows[0]?.endUtc ?? "");
  const at = (ms: number) => new Date(ms).toISOString();

  test("has no pass that could be put after its window", () => {
    const later = movedPass({ ...place, route: closed }, "ted", at(endMs + HOUR_MS), endMs + 3 * HOUR_MS);
    expect(later.ok ? "" : later.reason).toMatch(
      /^Ted before the window closes, .+: the crop is in by then\.$/,
    );
    expect(isGone(closed, endMs)).toBe(true);
    expect(isGone(closed, endMs - 1)).toBe(false);
    expect(isGone({ ...closed, windows: [] }, endMs)).toBe(false);
  });
});

describe("raking", () => {
  const now = passOf(place.route, "rake");

  test("goes by whole hours before the window, and the model puts it there", () => {
    const to = Date.parse(now) - 2 * HOUR_MS;
    const moved = good(movedPass(place, "rake", now, to));
    expect(moved.inputs.rake).toBe("before-window");
    expect(moved.atMs).toBe(to);
    expect(placedBy(moved.inputs, series, place.option.id, "rake")).toBe(to);
    expect(moved.rule).toMatch(/^Rake 3 h before the window$/);
  });

  test("comes at the latest as the window opens", () => {
    const latest = good(movedPass(place, "rake", now, Date.parse(now) + HOUR_MS));
    expect(latest.inputs.texts.rakeBeforeH.text).toBe("0");
    expect(latest.rule).toBe("Rake as the window opens");
    const late = movedPass(place, "rake", now, Date.parse(now) + 3 * HOUR_MS);
    expect(late.ok ? "" : late.reason).toMatch(/^Raking comes before the window/);
  });

  test("again and again counts from the one window, so that a move back puts it where it was", () => {
    let here = place;
    let at = Date.parse(now);
    for (const hours of [-1, -1, 1, 1]) {
      const moved = good(movedPass(here, "rake", new Date(at).toISOString(), at + hours * HOUR_MS));
      expect(moved.atMs).toBe(at + hours * HOUR_MS);
      here = placeOf(moved.inputs, series, ({ id }) => id === place.option.id);
      at = Date.parse(passOf(here.route, "rake"));
      expect(at).toBe(moved.atMs);
    }
  });

  const alfalfa: Inputs = { ...DEMO_INPUTS, crop: "alfalfa" };
  const rakedOnly = placeOf(alfalfa, series, ({ routes }) =>
    routes.some(({ route, operations }) => route === "dry-hay" && operations.length === 1),
  );
  const dayUtc = rakedOnly.route.beforeWindow?.earliestUtc ?? "";
  const dayMs = Date.parse(dayUtc);

  test("lies as the working day of the window starts at the earliest, and earlier is refused in words", () => {
    expect(localParts(dayMs, zone)).toMatchObject({ hour: 7, minute: 0 });
    const lies = passOf(rakedOnly.route, "rake");
    const first = good(movedPass(rakedOnly, "rake", lies, dayMs));
    expect(placedBy(first.inputs, series, rakedOnly.option.id, "rake")).toBe(first.atMs);
    expect(first.atMs).toBe(dayMs);
    const night = movedPass(rakedOnly, "rake", lies, dayMs - HOUR_MS);
    expect(night.ok ? "" : night.reason).toMatch(
      /^Raking comes on the working day of its window, which starts \w+day 07:00\.$/,
    );
  });

  test("before the tedding is refused: the model would leave the rake out", () => {
    const { earliestUtc } = place.route.beforeWindow ?? {};
    const under = movedPass(place, "rake", now, Date.parse(earliestUtc ?? ""));
    expect(under.ok ? "" : under.reason).toMatch(/^Raking comes after the tedding, \w+day 10:00\.$/);
  });

  test("more hours than reach back to the day's start lie at its start, and one move brings it away", () => {
    const far: Inputs = {
      ...alfalfa,
      rake: "before-window",
      texts: { ...alfalfa.texts, rakeBeforeH: { text: "19", units: "metric" } },
    };
    const early = placeOf(far, series, ({ id }) => id === rakedOnly.option.id);
    const lies = passOf(early.route, "rake");
    expect(lies).toBe(dayUtc);
    const later = good(movedPass(early, "rake", lies, dayMs + HOUR_MS));
    // To the next whole hour before the window, which opens between two.
    expect(Math.abs(later.atMs - dayMs - HOUR_MS)).toBeLessThanOrEqual(HOUR_MS / 2);
    expect(placedBy(later.inputs, series, rakedOnly.option.id, "rake")).toBe(later.atMs);
  });

  test("leaves the tedding as it was", () => {
    const moved = good(movedPass(place, "rake", now, Date.parse(now) - HOUR_MS));
    expect(moved.inputs).toEqual({
      ...grass,
      rake: "before-window",
      texts: { ...grass.texts, rakeBeforeH: moved.inputs.texts.rakeBeforeH },
    });
  });
});

// South Dakota: 2026-03-08 has 23 h (02:00 is skipped), 2026-11-01 has 25 h (01:00 comes twice).
describe.each([
  ["the short day", "2026-03-05T06:00:00Z", "2026-03-07"],
  ["the long day", "2026-10-29T05:00:00Z", "2026-10-31"],
] as const)("the clock changes on the day after the cut: %s", (_, fromUtc, cutDay) => {
  const spell = inventedSpell(PLACES.southDakota, fromUtc, 8 * 24, { meanTempC: 24, dewPointC: 4 });
  const changing = placeOf(
    { ...grass, texts: { ...grass.texts, tedHour: { text: "0", units: "metric" } }, ted: "morning-after" },
    spell,
    ({ cutUtc, id }) => cutUtc !== null && id.startsWith(cutDay),
  );
  const now = passOf(changing.route, "ted");

  test("an hour later and an hour earlier always moves by an hour, and the model agrees", () => {
    let at = Date.parse(now);
    for (let step = 1; step <= 6; step++) {
      const moved = good(movedPass(changing, "ted", now, at + HOUR_MS));
      expect(moved.atMs - at).toBe(HOUR_MS);
      expect(placedBy(moved.inputs, spell, changing.option.id, "ted")).toBe(moved.atMs);
      at = moved.atMs;
    }
    for (let step = 1; step <= 6; step++) at = good(movedPass(changing, "ted", now, at - HOUR_MS)).atMs;
    expect(at).toBe(Date.parse(now));
  });
});
