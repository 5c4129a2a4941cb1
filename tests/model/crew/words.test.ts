import { expect, test } from "vitest";
import { dayTime } from "../../../model/crew/index.ts";
import { spanTime } from "../../../model/crew/words.ts";

const AFTERNOON = Date.UTC(2026, 6, 1, 20);
const HOUR_MS = 3_600_000;
const farm = (hour12: boolean) => ({ timeZone: "America/Chicago", hour12 });

test.each([
  [false, "Wed 1 Jul 15:00", "Wed 1 Jul 15:00 to 17:00", "Wed 1 Jul 15:00 to Thu 2 Jul 01:00"],
  [true, "Wed 1 Jul 3 pm", "Wed 1 Jul 3 pm to 5 pm", "Wed 1 Jul 3 pm to Thu 2 Jul 1 am"],
])("moments on the farm's clock, of 12 hours: %s", (hour12, moment, span, overnight) => {
  expect(dayTime(AFTERNOON, farm(hour12))).toBe(moment);
  expect(spanTime(AFTERNOON, AFTERNOON + 2 * HOUR_MS, farm(hour12))).toBe(span);
  expect(spanTime(AFTERNOON, AFTERNOON + 10 * HOUR_MS, farm(hour12))).toBe(overnight);
});

test("a moment of another year is said with it", () => {
  expect(dayTime(AFTERNOON, { ...farm(false), thisYear: 2026 })).toBe("Wed 1 Jul 15:00");
  expect(dayTime(AFTERNOON, { ...farm(false), thisYear: 2027 })).toBe("Wed 1 Jul 2026 15:00");
});
