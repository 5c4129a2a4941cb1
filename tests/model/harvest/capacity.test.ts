import { describe, expect, test } from "vitest";
import {
  areaCapacityAcPerH,
  areaCapacityHaPerH,
  chopperBusyShare,
  hoursForArea,
  massCapacityTPerH,
  roundBaleCycle,
  throughputSpeedKmH,
  transportCycle,
} from "../../../model/harvest/capacity.ts";
import { BALERS, MOWER, typicalRateHaPerH } from "../../../model/harvest/machines.ts";

// Worked numbers: "computed" ones follow from the formula by hand; "published" ones are printed in extension guides on
// field capacity (EFC = S W E / 8.25), to the digits shown, so the tolerance is half the last digit.
describe("capacity of a field machine", () => {
  test("computed: 3 m, 10 km/h, 0.80 -> 2.40 ha/h", () => {
    expect(areaCapacityHaPerH(10, 3, 0.8)).toBeCloseTo(2.4, 12);
  });

  test.each([
    ["40 ft, 6 mph, 0.70", 6, 40, 0.7, 20.4],
    ["20 ft, 6 mph, 0.63", 6, 20, 0.63, 9.2],
    ["8 rows of 18 in, 5 mph, 0.85", 5, 12, 0.85, 6.2],
  ])("published: %s", (_, mph, ft, efficiency, acPerH) => {
    expect(Math.abs(areaCapacityAcPerH(mph, ft, efficiency) - acPerH)).toBeLessThan(0.05);
  });

  test("both unit systems tell the same rate", () => {
    const metric = areaCapacityHaPerH(6 * 1.609344, 40 * 0.3048, 0.7);
    expect(areaCapacityAcPerH(6, 40, 0.7) * 0.40468564224).toBeCloseTo(metric, 9);
  });

  test("computed: throughput 12 t/h over 6 m at 4 t/ha binds at 5.0 km/h", () => {
    expect(throughputSpeedKmH(12, 6, 4)).toBeCloseTo(5, 12);
    expect(massCapacityTPerH(5, 6, 4, 1)).toBeCloseTo(12, 12);
  });

  test("computed: bale 0.35 t, 20 t/h, stop 0.6 min -> fill 1.05 min, 12.73 t/h, efficiency 0.636", () => {
    const cycle = roundBaleCycle(0.35, 20, 0.6);
    expect(cycle.fillMin).toBeCloseTo(1.05, 12);
    expect(Math.abs(cycle.throughputTPerH - 12.73)).toBeLessThan(0.005);
    expect(Math.abs(cycle.efficiency - 0.636)).toBeLessThan(0.0005);
  });

  test("computed: fill 10 min, 8 km at 30 km/h, 7.5 min fixed -> 49.5 min, 5 units", () => {
    const { cycleMin, unitsNeeded } = transportCycle(10, 8, 30, 7.5);
    expect(cycleMin).toBeCloseTo(49.5, 12);
    expect(unitsNeeded).toBe(5);
    expect(chopperBusyShare(5, 10, cycleMin)).toBe(1);
    expect(chopperBusyShare(4, 10, cycleMin)).toBeCloseTo(40 / 49.5, 12);
  });

  test("a cycle of a whole number of fills needs no unit more", () => {
    expect(transportCycle(10, 0, 30, 20).unitsNeeded).toBe(3);
  });

  test("a mistake names function, argument, value and limit", () => {
    expect(() => areaCapacityHaPerH(10, 3, 80)).toThrow("efficiency must be in [0, 1], got 80");
    expect(() => throughputSpeedKmH(12, 6, 0)).toThrow("yieldTHa must be in [0.01, 400], got 0");
    expect(() => hoursForArea(12, Number.NaN)).toThrow("haPerH");
  });
});

describe("rate of a typical machine", () => {
  test("a mower goes by speed and width alone", () => {
    expect(typicalRateHaPerH(MOWER, 1)).toBeCloseTo((11 * 4 * 0.8) / 10, 12);
    expect(typicalRateHaPerH(MOWER, 90)).toBe(typicalRateHaPerH(MOWER, 1));
  });

  test("a baler slows down in a heavy crop, at its intake", () => {
    const light = typicalRateHaPerH(BALERS.round, 3);
    const heavy = typicalRateHaPerH(BALERS.round, 12);
    expect(light).toBeCloseTo((8 * 6 * 0.65) / 10, 12);
    expect(heavy * 12).toBeCloseTo(20 * 0.65, 9);
  });
});
