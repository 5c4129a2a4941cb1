import { expect, test } from "vitest";

test("the runtime's zone is the one this run of the suite asks for", () => {
  const zones = ["UTC", "Asia/Kolkata", "America/St_Johns"];
  expect(zones).toContain(process.env.TZ);
  // Minutes west of UTC on a day of July: the clock really runs in that zone.
  const minutes: Readonly<Record<string, number>> = { UTC: 0, "Asia/Kolkata": -330, "America/St_Johns": 150 };
  expect(new Date("2026-07-01T00:00:00Z").getTimezoneOffset() + 0).toBe(minutes[process.env.TZ ?? ""]);
});
