import { expect, test } from "vitest";
import { type MemberFate, toldReplay } from "../../../model/crew/replay.ts";
import { isTakenDry, type NotDryCause, whyNotDry } from "../../../model/crew/taken-dry.ts";
import type { MemberSwath } from "../../../model/crew/windows/member-swath.ts";
import type { SweepCourse } from "../../../model/drying/course.ts";

// Every hour here is invented: a swath cut at hour 0 and baled in hours 4 and 5, to be at 18 % or under.
const H = 3_600_000;
const SPAN = { fromUtcMs: 4 * H, toUtcMs: 6 * H };
const TOP_WB = 0.18;
const DRY = [0.7, 0.4, 0.2, 0.16, 0.15, 0.15];

function why(rainMm: readonly number[], moistureWb: readonly number[], freeWaterMm: readonly number[]) {
  const member = { weather: { startUtcMs: 0, rainMm: Float64Array.from(rainMm) } } as unknown as MemberSwath;
  const course = {
    ...{ startUtcMs: 0, cutUtcMs: 0, count: 6 },
    moistureWb: Float64Array.from(moistureWb),
    freeWaterMm: Float64Array.from(freeWaterMm),
  } as unknown as SweepCourse;
  const cause = whyNotDry(member, course, SPAN, TOP_WB);
  expect(isTakenDry(member, course, SPAN, TOP_WB)).toBe(cause === null);
  return cause;
}

const NONE = [0, 0, 0, 0, 0, 0];
const RAIN_AT = (hour: number) => NONE.map((_, i) => (i === hour ? 1 : 0));

test("what keeps crop from being taken dry is named as it is: rain then, rain before, slow drying, dew", () => {
  expect(why(NONE, DRY, NONE)).toBeNull();
  expect(why(RAIN_AT(5), DRY, NONE)).toBe("rain");
  const moist = DRY.map((wb) => wb + 0.1);
  expect(why(RAIN_AT(2), moist, NONE)).toBe("rain-before");
  expect(why(NONE, moist, NONE)).toBe("slow");
  // Wet since the hour of the rain: no dew. Dry in between: what lies there then is.
  expect(why(RAIN_AT(2), DRY, [0, 0, 0.5, 0.3, 0.1, 0])).toBe("rain-before");
  expect(why(RAIN_AT(1), DRY, [0, 0.3, 0, 0.1, 0, 0])).toBe("dew");
  expect(why(NONE, DRY, [0, 0, 0, 0.1, 0, 0])).toBe("dew");
  // Rain that fell on it and dried again keeps nothing from it.
  expect(why(RAIN_AT(1), DRY, [0, 0.3, 0, 0, 0, 0])).toBeNull();
});

test("a field is told with the shares of what keeps it from being dry, the most frequent first", () => {
  const fate = (notDry: NotDryCause | null): MemberFate => ({
    ...{ dry: notDry === null, notDry, lossPct: 20, rainMm: 0 },
  });
  const told = toldReplay(
    "a",
    [null, "dew", "rain", "rain", null].map((cause) => fate(cause as null)),
    true,
  );
  expect(told).toMatchObject({
    chanceDry: 0.4,
    notDry: [
      { cause: "rain", share: 0.4 },
      { cause: "dew", share: 0.2 },
    ],
  });
  expect(toldReplay("a", [fate(null)], true)).not.toHaveProperty("notDry");
});
