import axe from "axe-core";
import { render } from "preact";
import { useMemo, useReducer } from "preact/hooks";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { page, userEvent } from "vitest/browser";
import { findWindowsWithOdds } from "../../model/harvest/index.ts";
import { prepareWeather } from "../../model/weather/index.ts";
import sample from "../../weather-samples/settled-dry.json";
import type { Manner } from "../../web/format/manner.ts";
import { CutRule } from "../../web/odds/CutRule.tsx";
import { RecordOf } from "../../web/odds/RecordOf.tsx";
import { Microwave } from "../../web/reading/Microwave.tsx";
import { keepMet } from "../../web/reading/met.ts";
import { readingsOf } from "../../web/reading/readings.ts";
import { TakeReading } from "../../web/reading/TakeReading.tsx";
import type { Action } from "../../web/state/action.ts";
import { chosen } from "../../web/state/choice.ts";
import { DEMO_INPUTS } from "../../web/state/inputs.ts";
import { readInputs } from "../../web/state/read-inputs.ts";
import { reduce } from "../../web/state/reducer.ts";
import { firstState, type Picture, type Sample, type State } from "../../web/state/state.ts";
import { courseOf } from "../../web/worker/compute.ts";
import "../../web/style.css";

const { series, id, title } = sample as Sample;
const manner: Manner = { units: "metric", hour12: false, locale: "en-GB", zone: series.site.timeZone };
const prepared = prepareWeather(series);
const DRAWS = 60;
let host: HTMLElement;

beforeEach(async () => {
  await page.viewport(390, 900);
  localStorage.clear();
  host = document.createElement("main");
  document.body.append(host);
});

afterEach(() => {
  render(null, host);
  host.remove();
  delete document.documentElement.dataset.theme;
});

const soon = (check: () => void) => vi.waitFor(check, { timeout: 5000, interval: 20 });

/** The page's state over one board with odds, of its best dry hay. */
function firstOf(): { state: State; picture: Picture } {
  const { question } = readInputs(DEMO_INPUTS);
  if (question === null) throw new Error("no question");
  const request = { ...question, weather: series, cutHours: [9], draws: 12, cutRule: { waitingPerHa: 40 } };
  const outcome = findWindowsWithOdds(request);
  if (!outcome.ok) throw new Error("no answer");
  const source = { kind: "sample", id, title, series } as const;
  const picture: Picture = {
    id: 1,
    source,
    inputs: DEMO_INPUTS,
    request,
    answer: outcome.value,
    course: null,
    ribbons: {},
  };
  const state = firstState({
    timeZone: series.site.timeZone,
    locale: "en-GB",
    nowMs: 0,
    online: true,
    preferences: { units: "metric", theme: "system" },
    inputs: DEMO_INPUTS,
  });
  return { state: { ...state, source, picture }, picture };
}

const first = firstOf();
const choice = chosen(first.picture.answer, {
  optionId: first.picture.answer.best.byRoute["dry-hay"] ?? "",
  route: "dry-hay",
});

/** The folds with what the page's worker would answer to their readings. */
function FoldsOpen() {
  const [state, dispatch] = useReducer<State, Action, undefined>(reduce, undefined, () => first.state);
  const course = useMemo(() => {
    if (!choice) return null;
    const taken = readingsOf(state.readings, first.picture, choice.option.id).map(({ request }) => request);
    const outcome = courseOf(first.picture.request, choice, prepared, DRAWS, taken);
    return outcome?.ok
      ? { optionId: choice.option.id, route: "dry-hay" as const, course: outcome.value }
      : null;
  }, [state.readings]);
  const picture = { ...first.picture, course };
  const props = { state: { ...state, picture }, picture, choice, manner, dispatch, tries: async () => [] };
  return (
    <>
      <h1>Folds</h1>
      <TakeReading {...props} />
      <CutRule {...props} />
      <RecordOf {...props} />
    </>
  );
}

async function faults(): Promise<string[]> {
  const { violations } = await axe.run(host, { resultTypes: ["violations"] });
  return violations.map(({ id: rule, nodes }) => `${rule}: ${nodes.map(({ html }) => html).join(" ")}`);
}

function field(label: string): HTMLInputElement {
  const found = [...host.querySelectorAll("label")].find((one) => one.textContent?.startsWith(label));
  const input = found?.htmlFor ? document.getElementById(found.htmlFor) : found?.querySelector("input");
  if (!(input instanceof HTMLInputElement)) throw new Error(`no field "${label}"`);
  return input;
}

function button(label: string): HTMLButtonElement {
  const found = [...host.querySelectorAll("button")].find((one) => one.textContent?.trim() === label);
  if (!found) throw new Error(`no button "${label}"`);
  return found;
}

/** Readings of so many days, each a day ahead and always half a point wetter than the middle: invented. */
function keepDays(days: number): void {
  for (let day = 0; day < days; day += 1) {
    const atUtc = new Date(Date.UTC(2026, 5, 1 + day, 18)).toISOString();
    const issuedUtc = new Date(Date.UTC(2026, 5, day, 18)).toISOString();
    const came = day % 2 === 0;
    const bandsWb = { p10: 0.15, p25: 0.17, p50: 0.19, p75: 0.21, p90: 0.23 };
    const chances = [{ issuedUtc, atUtc, route: "dry-hay", chance: came ? 0.7 : 0.3, came }];
    keepMet({ issuedUtc, atUtc, route: "dry-hay", bandsWb, observedWb: 0.195, chances });
  }
}

test.each(["day", "night"])("the folds of reading, odds and record have no fault by %s", async (theme) => {
  document.documentElement.dataset.theme = theme;
  keepDays(21);
  render(<FoldsOpen />, host);
  await soon(() => expect(host.querySelectorAll(".reliability svg")).toHaveLength(1));
  expect(host.textContent).toMatch(/, cut \w+day [\d:]+: Cut when the chance is above/);
  expect(host.textContent).toContain("above 1 less the cost of waiting divided by");
  expect(await faults()).toEqual([]);
});

test("a reading that contradicts every course is questioned; one that may be so bends the course", async () => {
  render(<FoldsOpen />, host);
  await userEvent.fill(field("Moisture, wet basis"), "91");
  await userEvent.click(button("Bend the course to it"));
  await soon(() =>
    expect(host.querySelector(".odds-wrong")?.textContent).toMatch(/was not used.*confirm it.*measure again/),
  );
  expect(host.textContent).not.toMatch(/is now due|Effective sample size/);
  await userEvent.click(button("It is right: use it"));
  await soon(() => expect(host.textContent).toContain("is confirmed: it counts"));
  expect(host.textContent).not.toContain("It is right: use it");
  await userEvent.click(button("Take it back"));
  await soon(() => expect(host.querySelector(".odds-told")).toBeNull());
  const before = first.picture.request.swath.initialMoistureWb;
  expect(before).toBeGreaterThan(0.5);
  await userEvent.fill(field("Moisture, wet basis"), "40");
  await userEvent.click(button("Bend the course to it"));
  await soon(() => expect(host.textContent).toMatch(/Microwave: 40 %; expected/));
  expect(host.textContent).toContain(`of ${4 * DRAWS} drawn courses`);
  expect(host.querySelector(".odds-told")?.textContent).toMatch(/ % is now due \w+day/);
});

test("the microwave test ends when the weight has settled, and says when the sample chars", async () => {
  const used: number[] = [];
  render(<Microwave manner={manner} onUse={(pct, points) => used.push(pct, points)} />, host);
  const weigh = async (n: number, grams: string) => {
    await userEvent.fill(field(`Weighing ${n}`), grams);
    await userEvent.click(button("Take this weighing"));
  };
  await userEvent.fill(field("Empty dish"), "-5");
  await soon(() => expect(host.textContent).toContain("Got -5, must be at least 0 and at most 5,000 g."));
  await userEvent.fill(field("Empty dish"), "abc");
  await soon(() => expect(host.textContent).toContain('Got "abc", must be a number in digits.'));
  await userEvent.fill(field("Empty dish"), "200");
  await userEvent.fill(field("Dish with 100 g"), "300");
  await soon(() => expect(host.textContent).toContain("1 g of the scale is 1 point of this sample"));
  await userEvent.fill(field("Weighing 1"), "180");
  await soon(() => expect(host.textContent).toContain("Got 180, must be at least 200 and at most 301 g."));
  expect(button("Take this weighing").disabled).toBe(true);
  await soon(() => expect(host.textContent).toContain("3 minutes on high"));
  await weigh(1, "250");
  await weigh(2, "240");
  await soon(() => expect(host.textContent).toContain("60 % so far"));
  expect(host.textContent).not.toContain("Use this reading");
  await weigh(3, "239.5");
  await soon(() => expect(host.textContent).toContain("the weight has settled"));
  // It ends: one turn more is offered, none is asked for.
  expect(host.textContent).not.toMatch(/Weighing \d/);
  expect(host.textContent).toContain("One turn more, only if in doubt");
  expect(host.textContent).toContain("Done: the weight has settled.");
  expect(host.textContent).not.toContain("It chars");
  await userEvent.click(host.querySelector("input[type=checkbox]") as HTMLInputElement);
  // One turn that took nothing may be one that did not heat.
  await soon(() => expect(host.textContent).toContain("take a new sample"));
  expect(host.textContent).not.toContain("Use this reading");
  await userEvent.click(host.querySelector("input[type=checkbox]") as HTMLInputElement);
  await userEvent.fill(field("One turn more"), "239.2");
  await userEvent.click(button("Take this weighing"));
  await userEvent.click(host.querySelector("input[type=checkbox]") as HTMLInputElement);
  // By hand: of the weighing before, 239.5 g: 60.5 of 100 g were water.
  await soon(() => expect(host.textContent).toContain("It chars: the weight before counts"));
  await userEvent.click(button("Use this reading"));
  expect(used[0]).toBeCloseTo(60.5, 9);
  expect(used[1]).toBe(1);
});
