import { expect, test } from "vitest";
import { DRYING_PARAMETERS } from "../../../model/drying/coefficients.ts";
import { type Operation, runSweepCourse } from "../../../model/drying/course.ts";
import { MOISTURE_COLUMNS } from "../../../model/drying/course-columns.ts";
import { groundOf } from "../../../model/harvest/drying-store.ts";
import { blockStore, newRuns, optionRuns, partHour, runMember } from "../../../model/harvest/member-runs.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";

const HOUR_MS = 3_600_000;
const prepared = prepareWeather(
  inventedSpell(PLACES.southDakota, "2026-07-01T05:00:00Z", 120, { rainMm: { 40: 3 } }),
);
if (!prepared.ok) throw new Error("the invented spell must be usable");
const { weather } = prepared.value;
const cutUtcMs = weather.startUtcMs + 10.4 * HOUR_MS;
const cut = { cutUtcMs, startUtcMs: weather.startUtcMs + 10 * HOUR_MS };
const swath = {
  crop: "alfalfa",
  dryMatterTHa: 3.2,
  initialMoistureWb: 0.78,
  conditioning: "roll",
  coveredFraction: 0.6,
  stubbleCm: 8,
  soil: "moist",
} as const;
const ted: Operation = { kind: "ted", atUtcMs: cutUtcMs + 22.3 * HOUR_MS, coveredFraction: 0.9 };
const rake: Operation = { kind: "rake", atUtcMs: cutUtcMs + 51 * HOUR_MS, coveredFraction: null };

test("plans part in the hour of the first pass that differs", () => {
  expect(partHour([ted], [ted, rake], cut.startUtcMs)).toBe(51);
  expect(partHour([], [ted, rake], cut.startUtcMs)).toBe(22);
  expect(partHour([ted], [{ ...ted, coveredFraction: 0.8 }], cut.startUtcMs)).toBe(22);
  expect(partHour([ted, rake], [ted, rake], cut.startUtcMs)).toBeNull();
});

// However far each was run before the next began, a run that parts from another is the course run by itself, bit for bit.
test.each([0, 10, 22, 23, 51, 80, 120])(
  "runs that part after %i h are those of each plan by itself",
  (first) => {
    const plans = [[ted, rake], [], [ted]];
    const option = optionRuns(plans);
    const blocks = blockStore();
    const rate = { rateLnMean: 0, rateLnSd: 0.2 };
    for (const plan of plans) {
      const [one] = newRuns(option, plan, rate, cut, 1, () => ({
        weather,
        ground: groundOf(weather, 10),
        swath,
        p: DRYING_PARAMETERS,
        block: blocks.take(MOISTURE_COLUMNS * weather.count),
      }));
      if (!one) throw new Error("one run");
      runMember(one, first);
      runMember(one, 120);
      const alone = runSweepCourse(weather, swath, cutUtcMs, plan);
      expect([...one.run.course.moistureWb]).toEqual([...alone.moistureWb]);
      expect([...one.run.course.freeWaterMm]).toEqual([...alone.freeWaterMm]);
    }
  },
);
