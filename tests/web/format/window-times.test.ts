import { expect, test } from "vitest";
import { windowSpanText, windowTimes } from "../../../web/format/window-times.ts";
import { metric24, us12 } from "../../support/manners.ts";

const CHICAGO = "America/Chicago";

test("edges go inward to five minutes: a window is never told longer than it is", () => {
  const window = { startUtc: "2026-06-20T17:51:20Z", endUtc: "2026-06-20T20:04:00Z" };
  expect(windowSpanText(window, metric24(CHICAGO))).toBe("Saturday 12:55 to 15:00");
  expect(windowSpanText(window, us12(CHICAGO))).toBe("Saturday 12:55 pm to 3 pm");
});

test("edges on a mark stay, and what is too short to round is told to the minute", () => {
  const on = { startUtc: "2026-06-20T17:50:00Z", endUtc: "2026-06-20T20:05:00Z" };
  expect(windowTimes(on)).toEqual({ startMs: Date.parse(on.startUtc), endMs: Date.parse(on.endUtc) });
  const short = { startUtc: "2026-06-20T17:51:00Z", endUtc: "2026-06-20T17:54:00Z" };
  expect(windowSpanText(short, metric24(CHICAGO))).toBe("Saturday 12:51 to 12:54");
});
