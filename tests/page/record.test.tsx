import axe from "axe-core";
import { render } from "preact";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { page, userEvent } from "vitest/browser";
import { CAME_NOTE, recordAnswer } from "../../model/odds/index.ts";
import type { Manner } from "../../web/format/manner.ts";
import { RecordOf } from "../../web/odds/RecordOf.tsx";
import { keepMet } from "../../web/reading/met.ts";
import "../../web/style.css";

const manner: Manner = { units: "metric", hour12: false, locale: "en-GB", zone: "America/Chicago" };
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
  vi.restoreAllMocks();
});

const soon = (check: () => void) => vi.waitFor(check, { timeout: 5000, interval: 20 });
const dayOf = (i: number, hour: number) => new Date(Date.UTC(2026, 5, 1 + i, hour)).toISOString();

/** A book's record of told windows of so many days, every other one come: invented. */
function recordOfDays(days: number) {
  const chances = Array.from({ length: days }, (_, i) => {
    const came = i % 2 === 0;
    return { issuedUtc: dayOf(i, 6), atUtc: dayOf(i, 18), route: "dry-hay", chance: came ? 0.7 : 0.3, came };
  });
  const outcome = recordAnswer({ timeZone: manner.zone, chances });
  if (!outcome.ok) throw new Error("no record");
  return { ...outcome.value, notes: [...outcome.value.notes, CAME_NOTE] };
}

/** The server answers so; the first answer waits until it is let go. */
function server(status: number, body: unknown): () => void {
  let go = () => {};
  const first = new Promise<void>((done) => {
    go = done;
  });
  vi.spyOn(globalThis, "fetch").mockImplementation(async () => {
    await first;
    return Response.json(body, { status });
  });
  return go;
}

test("the book's record is shown where it can be read, said to be so, and the device's is one tap away", async () => {
  keepMet({
    issuedUtc: dayOf(0, 6),
    atUtc: dayOf(0, 18),
    bandsWb: { p10: 0.15, p25: 0.17, p50: 0.19, p75: 0.21, p90: 0.23 },
    observedWb: 0.195,
  });
  const go = server(200, recordOfDays(21));
  render(<RecordOf manner={manner} />, host);
  expect(host.textContent).toBe("The book's record is being worked out ...");
  go();
  await soon(() => expect(host.querySelectorAll(".reliability svg")).toHaveLength(1));
  expect(host.textContent).toContain("Of 21 told windows it is known whether it came, on 21 days.");
  const captions = [...host.querySelectorAll("caption")].map(({ textContent }) => textContent);
  expect(captions).toContainEqual(expect.stringContaining("Chance of the route's first window"));
  // Counts, bars and what came in all are drawn, and nothing of it over the frame.
  const frame = host.querySelector(".reliability-ground")?.getBoundingClientRect() as DOMRect;
  for (const of of ["dot", "count", "bar"]) {
    const marks = [...host.querySelectorAll(`.reliability-${of}`)];
    expect(marks).toHaveLength(2);
    for (const mark of marks) {
      const { left, right, top, bottom } = mark.getBoundingClientRect();
      expect(left >= frame.left && right <= frame.right).toBe(true);
      expect(top >= frame.top && bottom <= frame.bottom).toBe(true);
    }
  }
  expect(host.querySelectorAll(".reliability-base")).toHaveLength(1);
  // On a phone no column lies out of sight.
  for (const table of host.querySelectorAll(".odds-scroll"))
    expect(table.scrollWidth).toBeLessThanOrEqual(table.clientWidth);
  expect(host.textContent).toContain("did not where it was done only later");
  const { violations } = await axe.run(host, { resultTypes: ["violations"] });
  expect(violations.map(({ id }) => id)).toEqual([]);
  await userEvent.click(page.getByRole("radio", { name: "This device" }));
  await soon(() =>
    expect(host.textContent).toContain("1 forecast met a reading: too few to say, 1 of 20 days."),
  );
});

test.each([
  [200, recordOfDays(3), "too few to say, 3 of 20 days."],
  [200, recordOfDays(0), "Nothing in the book can be scored yet."],
  [
    401,
    { message: "a key is needed" },
    "The book asks for a key: sign in to see its record. This is the record of this device.",
  ],
  [
    503,
    { message: "no book is set up here" },
    "cannot be read: no book is set up here. This is the record of this device.",
  ],
])("in words, whatever the book says (%i)", async (status, body, words) => {
  server(status, body)();
  render(<RecordOf manner={manner} />, host);
  await soon(() => expect(host.textContent).toContain(words));
});
