import { render } from "preact";
import { beforeEach, expect, test, vi } from "vitest";
import type { RouteKey, WindowsAnswer } from "../../model/harvest/index.ts";
import { findWindows } from "../../model/harvest/index.ts";
import sample from "../../weather-samples/showers-every-other-day.json";
import { Board } from "../../web/board/Board.tsx";
import { BoardGround } from "../../web/board/BoardGround.tsx";
import type { Scale } from "../../web/board/calendar.ts";
import { toBoard } from "../../web/board/to-board.ts";
import { CourseView } from "../../web/course/CourseView.tsx";
import { chosen } from "../../web/state/choice.ts";
import { DEMO_INPUTS } from "../../web/state/inputs.ts";
import { readInputs } from "../../web/state/read-inputs.ts";
import type { Sample } from "../../web/state/state.ts";
import { courseOf } from "../../web/worker/compute.ts";
import { routeBands } from "../../web/worker/route-bands.ts";
import { metric24 } from "../support/manners.ts";
import { pageHost } from "../support/page-host.ts";

const { series } = sample as Sample;
const manner = metric24(series.site.timeZone);

function question() {
  const read = readInputs(DEMO_INPUTS).question;
  if (read === null) throw new Error("no question");
  return { ...read, weather: series };
}

function answered(): WindowsAnswer {
  const outcome = findWindows(question());
  if (!outcome.ok) throw new Error("no answer");
  return outcome.value;
}

const answer = answered();
const host = pageHost();

beforeEach(() => {
  // The real pointer rests where another file's test left it: here only the events of the test itself count.
  host.style.pointerEvents = "none";
});

/** Waits for what effects, the width's observer and the drawing after them bring about. */
const soon = (check: () => void) => vi.waitFor(check, { timeout: 5000, interval: 20 });

async function board(widthPx: number, selected = answer.best.overall, spoken = manner) {
  const told: {
    chosen: [string, RouteKey | null][];
    calendar: Scale | null;
    hours: (number | null)[];
  } = { chosen: [], calendar: null, hours: [] };
  host.style.width = `${widthPx}px`;
  render(
    <Board
      answer={answer}
      series={series}
      manner={spoken}
      selected={selected}
      ribbons={{}}
      onHour={(ms) => told.hours.push(ms)}
      onSelect={(optionId, route) => told.chosen.push([optionId, route])}
      onCalendar={(calendar) => {
        told.calendar = calendar;
      }}
    />,
    host,
  );
  await soon(() => expect(rows().length).toBeGreaterThan(2));
  await soon(() => expect(told.calendar !== null).toBe(widthPx > 680));
  return told;
}

const rows = () => [...host.querySelectorAll<HTMLButtonElement>("[data-row]")];

test("a row is a button that says its cut and its windows; choosing one tells which", async () => {
  const told = await board(1232);
  expect(rows().length).toBeGreaterThan(5);
  for (const row of rows()) expect(row.getAttribute("aria-label")).toMatch(/\d\d:\d\d/);
  expect(rows().filter((row) => row.getAttribute("aria-pressed") === "true")).toHaveLength(1);
  rows()[2]?.click();
  expect(told.chosen.map(([id]) => id)).toEqual([rows()[2]?.dataset.row]);
});

test("one row is reached by Tab, arrows go between rows, and a day unfolds", async () => {
  await board(1232);
  expect(rows().filter((row) => row.tabIndex === 0)).toHaveLength(1);
  const before = rows().length;
  rows()[0]?.focus();
  rows()[0]?.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowDown", bubbles: true }));
  expect(document.activeElement).toBe(rows()[1]);
  const unfold = host.querySelector<HTMLButtonElement>("[aria-expanded=false]");
  unfold?.click();
  await soon(() => expect(rows().length).toBeGreaterThan(before));
  expect(host.querySelectorAll("[aria-expanded=true]")).toHaveLength(1);
});

const line = () => (host.querySelector(".board-line")?.textContent ?? "").replaceAll("\u00a0", " ");
const key = (name: string) =>
  document.activeElement?.dispatchEvent(new KeyboardEvent("keydown", { key: name, bubbles: true }));

test("what is pointed at and what has the focus is told in the line below: rows, windows, rain", async () => {
  await board(1232);
  const chosenLine = line();
  expect(chosenLine).toMatch(/to work in\..*Before /);
  const vessel = host.querySelector<HTMLButtonElement>("li:last-child [data-vessel]");
  vessel?.dispatchEvent(new MouseEvent("mouseover", { bubbles: true }));
  await soon(() => expect(line()).toContain(vessel?.getAttribute("aria-label") ?? "?"));
  vessel?.dispatchEvent(new MouseEvent("mouseout", { bubbles: true }));
  await soon(() => expect(line()).toBe(chosenLine));
  rows()[0]?.focus();
  key("ArrowUp");
  await soon(() => expect(line()).toMatch(/^Rain: /));
  key("ArrowRight");
  await soon(() => expect(line()).toMatch(/^Rain, Saturday 20 Jun: no rain\./));
  key("ArrowRight");
  await soon(() => expect(line()).toMatch(/^Rain, Sunday 21 Jun: [\d.]+\smm of rain/));
  expect(host.querySelectorAll("[title]")).toHaveLength(0);
});

test("black is the chosen row; the best says so in a word, and both are in the key", async () => {
  const best = answer.best.overall;
  const other = answer.options.find(({ id, kind }) => kind === "swath" && id !== best?.optionId);
  if (!best || !other) throw new Error("no other row");
  for (const widthPx of [1232, 358]) {
    for (const id of [best.optionId, other.id]) {
      render(null, host);
      await board(widthPx, { optionId: id, route: best.route });
      await soon(() => expect(host.querySelectorAll(".board-row.chosen .hour-block")).toHaveLength(1));
      expect(host.querySelectorAll(".board-row .hour-block")).toHaveLength(1);
      const marked = [...host.querySelectorAll(".row-best")];
      expect(marked.map(({ textContent }) => textContent)).toEqual(["best"]);
      expect(marked[0]?.closest(".board-row")?.classList.contains("chosen")).toBe(id === best.optionId);
      const frame = host.querySelector(".board-row.chosen > .row-frame");
      expect(frame && getComputedStyle(frame).strokeWidth).toBe("2.4px");
    }
  }
  expect(host.querySelector(".board-legend")?.textContent).toMatch(/the cut looked at.*the best of all/);
});

test("of a forecast too old to decide by the line under the board tells only what is pointed at", async () => {
  host.style.width = "1232px";
  render(
    <Board
      answer={answer}
      series={series}
      manner={manner}
      selected={answer.best.overall}
      ribbons={{}}
      age="expired"
      onSelect={() => {}}
    />,
    host,
  );
  await soon(() => expect(rows().length).toBeGreaterThan(2));
  expect(host.querySelector(".board-line")?.textContent).toBe("");
  expect(host.querySelector(".board-sentence")?.textContent).toBe("This forecast is too old to decide by.");
  expect(host.querySelectorAll(".row-best")).toHaveLength(0);
  rows()[0]?.focus();
  await soon(() => expect(host.querySelector(".board-line")?.textContent).toMatch(/ to work in/));
});

test("in doubt, each chance of rain is one text with its mark", () => {
  const day = { dateLocal: "2026-06-20", chance: 0.4, p90Mm: 14, days: [] };
  const odds = { weather: "widened", rainDays: [day] } as unknown as NonNullable<WindowsAnswer["odds"]>;
  const picture = toBoard({ ...answer, odds }, series, {}, manner, 1232);
  render(
    <svg role="img" aria-label="The board's ground">
      <BoardGround picture={picture} doubted />
    </svg>,
    host,
  );
  const chances = [...host.querySelectorAll(".rain-words")].filter((words) =>
    words.textContent?.includes("in 10"),
  );
  expect(chances.length).toBeGreaterThan(0);
  for (const words of chances) {
    expect(words.textContent).toMatch(/\?$/);
    expect(words.childNodes).toHaveLength(1);
  }
});

test("Escape goes from a window to its row, then on to what follows the board, and lets the hour go", async () => {
  const told = await board(1232);
  const vessel = host.querySelector<HTMLButtonElement>("[data-vessel]");
  vessel?.focus();
  await soon(() => expect(host.querySelector(".board-hair")).not.toBeNull());
  key("Escape");
  expect(document.activeElement).toBe(vessel?.closest("li")?.querySelector("[data-row]"));
  await soon(() => expect(host.querySelector(".board-hair")).toBeNull());
  expect(told.hours.at(-1)).toBeNull();
  key("Escape");
  expect(document.activeElement).toBe(host.querySelector(".board-details > summary"));
  // From a window on to another row: no hour of the row before stays.
  vessel?.focus();
  await soon(() => expect(host.querySelector(".board-hair")).not.toBeNull());
  key("ArrowDown");
  await soon(() => expect(host.querySelector(".board-hair")).toBeNull());
});

test("the board is one stop for Tab; T opens its table", async () => {
  await board(1232);
  const inside = [...host.querySelectorAll<HTMLElement>(".board-picture button")];
  expect(inside.filter(({ tabIndex }) => tabIndex === 0)).toHaveLength(1);
  rows()[1]?.focus();
  key("t");
  const table = host.querySelector("details.board-details");
  await soon(() => expect(table?.querySelectorAll("tbody tr").length).toBeGreaterThan(20));
  expect(document.activeElement).toBe(table?.querySelector("summary"));
});

test("a pointer brings an hour line, in the farm's time, and tells its hour", async () => {
  const told = await board(1232);
  const picture = host.querySelector<HTMLElement>(".board-picture");
  if (!picture || !told.calendar) throw new Error("no board");
  const { x, fromMs } = told.calendar;
  const at = (ms: number) =>
    new PointerEvent("pointermove", {
      clientX: picture.getBoundingClientRect().left + x(ms) + 0.5,
      pointerType: "mouse",
      bubbles: true,
    });
  const atMs = fromMs + 33 * 3_600_000;
  picture.dispatchEvent(at(atMs));
  await soon(() => expect(host.querySelector(".board-hair-hour")?.textContent).toBe("Sun 09:00"));
  expect(told.hours.at(-1)).toBe(atMs);
  picture.dispatchEvent(new PointerEvent("pointerleave", { pointerType: "mouse" }));
  await soon(() => expect(host.querySelector(".board-hair")).toBeNull());
  expect(told.hours.at(-1)).toBeNull();
});

test("without odds every vessel is empty: no number, no filling, only its coloured wall", async () => {
  await board(1232);
  expect(host.querySelectorAll(".vessel").length).toBeGreaterThan(5);
  expect(host.querySelectorAll(".vessel-fill")).toHaveLength(0);
  const texts = [...host.querySelectorAll(".vessel-text")].map((text) => text.textContent);
  expect(texts.filter((text) => /\d/.test(text ?? ""))).toEqual([]);
});

test.each([1232, 358])(
  "at %i px the windows' targets are 44 px high, lie in their row and over none beside",
  async (px) => {
    await board(px);
    for (const row of rows()) {
      const at = row.getBoundingClientRect();
      const targets = [...(row.parentElement?.querySelectorAll(".vessel-button") ?? [])].map((one) =>
        one.getBoundingClientRect(),
      );
      targets.forEach(({ top, bottom, left, height }, i) => {
        expect(height).toBeGreaterThanOrEqual(43.9);
        expect(top >= at.top - 0.1 && bottom <= at.bottom + 0.1).toBe(true);
        expect(left).toBeGreaterThanOrEqual((targets[i - 1]?.right ?? at.left) - 0.2);
      });
    }
  },
);

test("on a phone a touch among close windows names them under their row, and the next one chooses", async () => {
  const first = await board(358);
  const close = () =>
    [...host.querySelectorAll<HTMLElement>(".vessel-button")].find(
      (one) => one.getBoundingClientRect().width < 43.9,
    );
  close()?.click();
  const [optionId = "", route = null] = first.chosen[0] ?? [];
  if (route === null) throw new Error("no window stands close to another");
  const told = await board(358, { optionId, route });
  const choices = () => [...host.querySelectorAll<HTMLElement>(".window-choice")];
  await soon(() => expect(choices().length).toBeGreaterThan(1));
  for (const choice of choices()) {
    const { width, height } = choice.getBoundingClientRect();
    expect(Math.min(width, height)).toBeGreaterThanOrEqual(43.9);
    expect(choice.scrollWidth).toBeLessThanOrEqual(choice.clientWidth);
  }
  // Keys go along the row itself, where the same windows stand.
  rows()
    .find((row) => row.getAttribute("aria-pressed") === "true")
    ?.focus();
  for (let i = 0; i < 12; i++) key("ArrowRight");
  expect(document.activeElement?.classList.contains("window-choice")).toBe(false);
  const other = choices().find((choice) => choice.getAttribute("aria-pressed") === "false");
  other?.click();
  expect(told.chosen[0]?.[0]).toBe(optionId);
  expect(other?.dataset.at).toContain(`${told.chosen[0]?.[1]}/`);
});

test("a phone's board stays inside its width and shares no calendar", async () => {
  const told = await board(358);
  const svg = host.querySelector("svg.board-svg");
  expect(svg?.getAttribute("width")).toBe("358");
  for (const row of rows()) expect(row.getBoundingClientRect().height).toBeGreaterThanOrEqual(44);
  expect(told.calendar).toBeNull();
});

test("the course is drawn under the board's hours, with its sentence and its table", async () => {
  const { calendar } = await board(1232);
  if (calendar === null) throw new Error("no calendar");
  const choice = chosen(answer, null);
  const outcome = choice && courseOf(question(), choice);
  if (!choice || !outcome?.ok) throw new Error("no course");
  render(null, host);
  host.style.width = "988px";
  const { option, route } = choice;
  const routes = routeBands(question()).map((band) => ({ ...band, label: band.route }));
  render(
    <CourseView
      {...{ course: outcome.value, option, route, routes, manner, series, calendar }}
      initialMoistureWb={question().swath.initialMoistureWb}
    />,
    host,
  );
  const canvas = host.querySelector("canvas");
  const context = canvas?.getContext("2d");
  if (!canvas || !context) throw new Error("no canvas");
  expect(canvas.getAttribute("role")).toBe("img");
  expect(canvas.getAttribute("aria-label")).toMatch(/^Cut \w+day \d\d:00.* at 78 %/);
  host.querySelector<HTMLElement>(".course-details > summary")?.click();
  await soon(() =>
    expect(host.querySelectorAll("table tbody tr").length).toBe(outcome.value.hours.startUtc.length),
  );
  // The chart's ground fills the board's hours and nothing left of them.
  const ratio = () => canvas.width / 988;
  const alphaAt = (x: number) =>
    context.getImageData(Math.round(x * ratio()), Math.round(60 * ratio()), 1, 1).data[3] ?? 0;
  await soon(() => expect(alphaAt(calendar.x0 + 4)).toBe(255));
  expect(alphaAt(calendar.x0 - 40)).toBe(0);
  expect(alphaAt(calendar.x1 - 4)).toBe(255);
});

test("of another year's weather the heading says the year, and nothing under it says it again", async () => {
  const year = Number(series.hours.startUtc[0]?.slice(0, 4));
  await board(1232, answer.best.overall, { ...manner, thisYear: year + 1, nearDay: null });
  expect(host.querySelector(".board-zone")?.textContent).toContain(`in ${year}, times of`);
  const said = [...host.querySelectorAll("[aria-label]")].map((one) => one.getAttribute("aria-label"));
  const under = `${host.textContent?.replace(`in ${year}`, "")} ${said.join(" ")}`;
  expect(under).toMatch(/day \d+ [A-Z][a-z]{2}/);
  expect(under).not.toContain(String(year));
});
