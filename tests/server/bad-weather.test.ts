import { describe, expect, test } from "vitest";
import { errorSchema } from "../../server/schemas/error.ts";
import { theModel } from "../../server/the-model.ts";
import { fakeApp, post } from "../support/app.ts";
import { changed, exampleDrydown, exampleWindows } from "../support/requests.ts";

const app = fakeApp({ model: theModel });
const { startUtc, airTempC } = exampleDrydown().weather.hours;

function swapped<T>(list: readonly T[], i: number, j: number): T[] {
  const copy = [...list];
  const [a, b] = [copy[i], copy[j]];
  if (a !== undefined && b !== undefined) {
    copy[i] = b;
    copy[j] = a;
  }
  return copy;
}

async function refusal(path: string, request: unknown) {
  const response = await post(app, path, request);
  expect(response.status).toBe(400);
  const problem = errorSchema.parse(await response.json());
  expect(problem.error).toBe("invalid-request");
  expect(problem.issues.length).toBeGreaterThan(0);
  return problem;
}

describe("what only the model can see is refused by the same shape, with field and value", () => {
  test.each([
    ["cutUtc", "2027-07-01T15:00:00Z", "cutUtc", "2027-07-01T15:00:00Z"],
    ["cutUtc", "2026-06-01T15:00:00Z", "cutUtc", "2026-06-01T15:00:00Z"],
    ["weather.site.timeZone", "Mars/Olympus", "weather.site.timeZone", "Mars/Olympus"],
    ["weather.hours.airTempC", airTempC.slice(1), "weather.hours.airTempC", "119"],
    ["weather.hours.airTempC.7", 95, "weather.hours.airTempC[7]", "95"],
    [
      "weather.hours.startUtc",
      [startUtc[0], ...startUtc.slice(0, -1)],
      "weather.hours.startUtc[1]",
      startUtc[0] ?? "",
    ],
    ["weather.hours.startUtc", swapped(startUtc, 4, 9), "weather.hours.startUtc[4]", startUtc[9] ?? ""],
    ["weather.hours.startUtc.2", "yesterday", "weather.hours.startUtc[2]", "yesterday"],
  ])("drydown: %s", async (path, value, at, shown) => {
    const problem = await refusal("/api/drydown", changed(exampleDrydown(), path, value));
    const issue = problem.issues.find((one) => one.path === at);
    expect([at, problem.issues.map((one) => one.path)]).toEqual([at, expect.arrayContaining([at])]);
    expect(issue?.message).toContain(shown);
  });

  test("a cut past the usable weather is told which column ends it", async () => {
    const wind = exampleDrydown().weather.hours.windSpeedMps.map((value, i) =>
      i >= 30 && i < 40 ? null : value,
    );
    const late = { ...exampleDrydown(), cutUtc: startUtc[50] };
    const { issues } = await refusal("/api/drydown", changed(late, "weather.hours.windSpeedMps", wind));
    expect(issues[0]?.message).toContain(`windSpeedMps missing in 10 hours from ${startUtc[30]}`);
    const short = await refusal("/api/windows", changed(exampleWindows(), "weather.hours.rainMm.20", null));
    expect(short.issues[0]?.message).toMatch(/got 20 usable hours.*rainMm missing in the hour from/);
  });

  test.each([
    ["weather.site.timeZone", "Mars/Olympus", "weather.site.timeZone"],
    ["nowUtc", "2030-01-01T00:00:00Z", "nowUtc"],
    ["routes", [], "routes"],
    ["workHours", { from: "07:00", to: "07:00" }, "workHours.to"],
  ])("windows: %s", async (path, value, at) => {
    const problem = await refusal("/api/windows", changed(exampleWindows(), path, value));
    expect(problem.issues.map((one) => one.path)).toContain(at);
  });
});
