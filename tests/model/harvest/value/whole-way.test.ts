import { expect, test } from "vitest";
import { runSweepCourse } from "../../../../model/drying/course.ts";
import type { SwathRequest } from "../../../../model/drying/request.ts";
import { lossSteps, lossTotal, lyingHours, routeLosses } from "../../../../model/harvest/losses/index.ts";
import { routeValue } from "../../../../model/harvest/value/index.ts";
import { HOUR_MS } from "../../../../model/weather/clock.ts";
import { prepareWeather } from "../../../../model/weather/prepare.ts";
import { sampleSeries } from "../../../support/samples.ts";

/** From the weather to money, on an invented spell with and without a shower. */

const SWATH: SwathRequest = {
  crop: "alfalfa",
  dryMatterTHa: 3.2,
  initialMoistureWb: 0.78,
  conditioning: "roll",
  coveredFraction: 0.7,
  stubbleCm: 8,
  soil: "dry",
};

function hayOf(showerMm: number) {
  const series = sampleSeries("settled-dry");
  const rainMm = series.hours.rainMm.map((mm, i) => (mm ?? 0) + (i === 42 ? showerMm : 0));
  const prepared = prepareWeather({ ...series, hours: { ...series.hours, rainMm } });
  if (!prepared.ok) throw new Error(JSON.stringify(prepared.issues));
  const { weather } = prepared.value;
  const cutUtcMs = weather.startUtcMs + 16 * HOUR_MS;
  const course = runSweepCourse(weather, SWATH, cutUtcMs);
  const takenMs = cutUtcMs + 76 * HOUR_MS;
  const steps = routeLosses("dry-hay", "round", {
    crop: SWATH.crop,
    conditioning: SWATH.conditioning,
    passes: [{ kind: "rake", moistureWb: 0.35 }],
    ...lyingHours(course, weather, SWATH.initialMoistureWb, takenMs),
    takenAtWb: 0.16,
  });
  const value = routeValue({
    route: "dry-hay",
    package: "round",
    dryMatterTHa: SWATH.dryMatterTHa,
    steps,
    passes: ["rake"],
    mowHaPerH: 4,
    haPerH: 3,
    takenAtWb: 0.16,
  });
  return { steps, value };
}

test("a shower costs dry matter and money; the steps multiply to what is fed", () => {
  const dry = hayOf(0);
  const wet = hayOf(8);
  const pct = ({ steps }: typeof dry, key: string) =>
    lossSteps(steps).find(({ step }) => step === key)?.pct ?? 0;
  expect(pct(dry, "rain")).toBe(0);
  expect(pct(wet, "rain")).toBeGreaterThan(1);
  expect(pct(wet, "respiration")).toBeGreaterThanOrEqual(pct(dry, "respiration"));
  expect(lossTotal(wet.steps).pct).toBeGreaterThan(lossTotal(dry.steps).pct);
  expect(wet.value.valuePerHa).toBeLessThan(dry.value.valuePerHa);
  expect(wet.value.bales).toBeLessThan(dry.value.bales);
  expect(dry.value.fedTHa).toBeCloseTo(3.2 * (1 - lossTotal(dry.steps).pct / 100), 9);
});
