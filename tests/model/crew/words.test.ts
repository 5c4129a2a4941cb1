import { expect, test } from "vitest";
import { dayTime } from "../../../model/crew/index.ts";
import { spanTime } from "../../../model/crew/words.ts";

const AFTERNOON = Date.UTC(2026, 6, 1, 20);
const HOUR_MS = 3_600_000;
const farm = (hour12: boolean) => ({ timeZone: "America/Chicago", hour12 });

test.each([
  [false, "Wed 15:00", "Wed 15:00-17:00", "Wed 15:00-Thu 01:00"],
  [true, "Wed 3 pm", "Wed 3 pm-5 pm", "Wed 3 pm-Thu 1 am"],
])("moments on the farm's clock, of 12 hours: %s", (hour12, moment, span, overnight) => {
  expect(dayTime(AFTERNOON, farm(hour12))).toBe(moment);
  expect(spanTime(AFTERNOON, AFTERNOON + 2 * HOUR_MS, farm(hour12))).toBe(span);
  expect(spanTime(AFTERNOON, AFTERNOON + 10 * HOUR_MS, farm(hour12))).toBe(overnight);
});
