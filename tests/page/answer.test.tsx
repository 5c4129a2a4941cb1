import { render } from "preact";
import { expect, test, vi } from "vitest";
import { findWindows, findWindowsWithOdds } from "../../model/harvest/index.ts";
import type { WeatherSeries } from "../../model/weather/index.ts";
import sample from "../../weather-samples/settled-dry.json";
import { AnswerHead } from "../../web/answer/AnswerHead.tsx";
import { AnswerMore } from "../../web/answer/AnswerMore.tsx";
import { toldOf } from "../../web/answer/told.ts";
import { Cautions } from "../../web/cautions/Cautions.tsx";
import { MannerSwitch } from "../../web/format/MannerSwitch.tsx";
import type { Manner } from "../../web/format/manner.ts";
import type { Units } from "../../web/format/units.ts";
import { chancesDrawn } from "../../web/print/paper.ts";
import { DEMO_INPUTS } from "../../web/state/inputs.ts";
import { readInputs } from "../../web/state/read-inputs.ts";
import type { Picture, Sample } from "../../web/state/state.ts";
import type { PageState } from "../../web/states/state-chips.ts";
import type { WeatherSource } from "../../web/weather/source.ts";
import { metric24 } from "../support/manners.ts";
import { pageHost } from "../support/page-host.ts";

const host = pageHost();

test("the switch of units is a pair of radios, each 44 px high", async () => {
  const told: Units[] = [];
  const draw = (units: Units) =>
    render(<MannerSwitch units={units} onUnits={(next) => told.push(next)} />, host);
  draw("metric");
  const radios = [...host.querySelectorAll<HTMLInputElement>("input[type=radio]")];
  expect(radios.map(({ value, checked }) => [value, checked])).toEqual([
    ["metric", true],
    ["us", false],
  ]);
  expect(new Set(radios.map(({ name }) => name)).size).toBe(1);
  for (const label of host.querySelectorAll("label"))
    expect(label.getBoundingClientRect().height).toBeGreaterThanOrEqual(44);
  radios[1]?.click();
  expect(told).toEqual(["us"]);
  draw("us");
  await vi.waitFor(() => expect(radios[1]?.checked).toBe(true));
});

test("cautions: orders always in sight, the reason one tap below, none of them clears a feed", async () => {
  render(<Cautions crop="sorghum-sudan" route="wrapped-bales" />, host);
  const boxes = [...host.querySelectorAll("details")];
  expect(boxes).toHaveLength(2);
  for (const box of boxes) {
    expect(box.open).toBe(false);
    const orders = [...box.querySelectorAll<HTMLElement>("summary .order")];
    expect(orders.length).toBeGreaterThan(0);
    expect(orders.length).toBeLessThanOrEqual(3);
    for (const order of orders) expect(order.checkVisibility()).toBe(true);
    const reason = box.querySelector<HTMLElement>(":scope > p");
    expect(reason?.checkVisibility()).toBe(false);
    box.querySelector("summary")?.click();
    await vi.waitFor(() => expect(reason?.checkVisibility()).toBe(true));
    expect(orders[0]?.checkVisibility()).toBe(true);
  }
  expect(host.textContent).toContain("Nitrate and prussic acid sampled?");
  expect(host.textContent).not.toMatch(/\bsafe\b/i);
});

const { series } = sample as Sample;
const HOUR_MS = 3_600_000;
const endMs = Date.parse(series.hours.startUtc.at(-1) ?? "") + HOUR_MS;

function pictureOf(source: WeatherSource): Picture {
  const { question } = readInputs(DEMO_INPUTS);
  if (question === null) throw new Error("no question");
  const request = { ...question, weather: source.series };
  const outcome = findWindows(request);
  if (!outcome.ok) throw new Error("no answer");
  return { id: 1, source, inputs: DEMO_INPUTS, request, answer: outcome.value, course: null, ribbons: {} };
}

interface Headed {
  readonly picture: Picture;
  readonly manner: Manner;
  readonly now: PageState;
  readonly costsWrong?: boolean;
}

/** The head as the page shows it while its best row is looked at. */
function headOf({ picture, manner, now, costsWrong = false }: Headed) {
  const told = toldOf(picture, null, manner, now, costsWrong);
  return (
    <AnswerHead picture={picture} told={told} manner={manner} costsWrong={costsWrong} onBest={() => {}} />
  );
}

function head(source: WeatherSource, nowMs: number): void {
  const manner = { ...metric24(series.site.timeZone), thisYear: new Date(nowMs).getUTCFullYear() };
  const now = { online: true, nowMs, keptMs: null };
  const picture = pictureOf(source);
  render(headOf({ picture, manner, now }), host);
}

const upload = (own: Partial<WeatherSeries>): WeatherSource => ({
  kind: "upload",
  name: "creek.csv",
  missing: 0,
  series: { ...series, origin: "upload", ...own },
});

test("weather of the past: the answer says what would have been, and a warning when it ended", () => {
  head(upload({}), endMs + 400 * 24 * HOUR_MS);
  expect(host.querySelector("h1")?.textContent).toMatch(/^Creek field would have been cut .* Jun 2026 /);
  expect(host.querySelector(".chip.warn")?.textContent).toMatch(/^This weather ended \w+ \d+ Jun 2026:/);
});

test("invented weather is answered as if it lay ahead, whatever the device's clock says", () => {
  head({ kind: "sample", ...(sample as Sample) }, endMs + 400 * 24 * HOUR_MS);
  expect(host.querySelector("h1")?.textContent).toMatch(/^So far: Cut Creek field /);
  expect(host.textContent).not.toMatch(/ended|would have been/);
});

test("costs that cannot be read: the head tells no rule by what they were before", () => {
  const source: WeatherSource = { kind: "sample", ...(sample as Sample) };
  const picture = pictureOf(source);
  const cutRule = { waitingPerHa: 1, rainedOnPerHa: 1000 };
  const outcome = findWindowsWithOdds({ ...picture.request, draws: 2, cutRule });
  if (!outcome.ok) throw new Error("no answer");
  const nowMs = Date.parse(series.hours.startUtc[0] ?? "");
  const now = { online: true, nowMs, keptMs: null };
  const shown = {
    picture: { ...picture, answer: outcome.value },
    manner: metric24(series.site.timeZone),
    now,
  };
  render(headOf(shown), host);
  expect(host.querySelector(".cut-rule")?.textContent).toMatch(/above 99.9/);
  render(headOf({ ...shown, costsWrong: true }), host);
  expect(host.querySelector(".cut-rule")).toBeNull();
  // The chances are known: what to do may be said without reserve.
  expect(host.querySelector("h1")?.textContent).toMatch(/^(?!.*By your costs)(?!So far)/);
  expect(host.querySelector(".odds-line")?.textContent).toContain(
    "until what waiting and rain cost is right",
  );
});

test("the head is the answer and one line; what else there is to say is under the board", () => {
  const source: WeatherSource = { kind: "sample", ...(sample as Sample) };
  const nowMs = Date.parse(series.hours.startUtc[0] ?? "");
  head(source, nowMs);
  expect(host.querySelectorAll(".answer :is(h1, p:not(.print-only))")).toHaveLength(3);
  expect(host.querySelector(".answer")?.textContent).not.toMatch(/Runner-up|Dry enough/);
  const now = { online: true, nowMs, keptMs: null };
  const manner = metric24(series.site.timeZone);
  render(<AnswerMore told={toldOf(pictureOf(source), null, manner, now)} />, host);
  expect(host.textContent).toMatch(/Runner-up: .*Dry enough for .*your veterinarian/);
});

test("with the chances told the line is the choice that they leave, and is not told again under the board", () => {
  const source: WeatherSource = { kind: "sample", ...(sample as Sample) };
  const plain = pictureOf(source);
  const outcome = findWindowsWithOdds({ ...plain.request, draws: 2 });
  if (!outcome.ok) throw new Error("no answer");
  const nowMs = Date.parse(series.hours.startUtc[0] ?? "");
  const props = {
    picture: { ...plain, answer: outcome.value },
    manner: metric24(series.site.timeZone),
    now: { online: true, nowMs, keptMs: null },
  };
  render(headOf(props), host);
  const line = host.querySelector(".odds-line")?.textContent ?? "";
  expect(line).toMatch(/^(Next best|As good as equal): cut \w+day /);
  render(<AnswerMore told={toldOf(props.picture, null, props.manner, props.now)} />, host);
  expect(host.textContent).not.toContain(line);
  expect(host.textContent).not.toMatch(/Next best:|As good as equal:/);
});

test("past 72 h a forecast has no answer sentence at all, only when it was made", () => {
  const issuedUtc = series.hours.startUtc[0] ?? "";
  head(upload({ issuedUtc }), Date.parse(issuedUtc) + 80 * HOUR_MS);
  expect(host.querySelector("h1")?.textContent).toBe("This forecast is too old to decide by.");
  expect(host.querySelector(".promise")?.textContent).toMatch(
    /^It was made .*; the board below is its last\.$/,
  );
  expect(host.textContent).not.toMatch(/Cut Creek field|Runner-up|Dry enough/);
});

test("printing waits for the chances of board and course, and not for ever", async () => {
  host.innerHTML =
    '<main data-picture="1" data-odds="none"><section class="course" data-bands="none"></section></main>';
  const order: string[] = [];
  const printed = chancesDrawn().then(() => order.push("printed"));
  await new Promise((resolve) => setTimeout(resolve, 120));
  host.querySelector("main")?.setAttribute("data-odds", "told");
  order.push("board");
  await new Promise((resolve) => setTimeout(resolve, 120));
  host.querySelector(".course")?.setAttribute("data-bands", "drawn");
  order.push("course");
  await printed;
  expect(order).toEqual(["board", "course", "printed"]);
  host.querySelector(".course")?.setAttribute("data-bands", "none");
  await chancesDrawn(100);
});
