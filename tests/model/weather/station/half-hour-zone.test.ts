import { expect, test } from "vitest";
import { HOUR_MS, MINUTE_MS } from "../../../../model/weather/clock.ts";
import { readStation } from "../../../../model/weather/station/index.ts";

/** Half an hour from a whole offset: the rows of the local hour touch two hours of UTC. Worked by hand. */
const PLACE = {
  site: { latitude: 18.5, longitude: 73.9, elevationM: 560, timeZone: "Asia/Kolkata" },
  windHeightM: 2,
};
const HEADER = "Time,Temp (C),RH (%),Wind (m/s),Solar (W/m2),Rain (mm)";

test("local hours of India, by their start: half of each falls into either hour of UTC", () => {
  // 05:30 UTC is 11:00 there: the first row covers 05:30 to 06:30.
  const first = Date.UTC(2026, 5, 10, 11);
  const rows = Array.from({ length: 30 }, (_, i) => {
    const wall = new Date(first + i * HOUR_MS).toISOString().slice(0, 16).replace("T", " ");
    return `${wall},${20 + i / 4},50,2,${10 * i},${i === 2 ? 4 : 0}`;
  });
  const { series, clock, counts } = readStation([HEADER, ...rows].join("\n"), {
    ...PLACE,
    answers: { clock: "standard", label: "start" },
  });
  expect(clock).toMatchObject({ timeZone: "Asia/Kolkata", dst: false, label: "start" });
  // Half an hour at either end is less than three quarters: only the whole hours between are kept.
  expect(series?.hours.startUtc[0]).toBe("2026-06-10T06:00:00Z");
  expect(counts.hours).toBe(29);
  expect(series?.hours.airTempC.slice(0, 3)).toEqual([20.125, 20.375, 20.625]);
  expect(series?.hours.solarWm2?.slice(0, 3)).toEqual([5, 15, 25]);
  // The 4 mm of 07:30 to 08:30 UTC, two in either hour.
  expect(series?.hours.rainMm.slice(0, 4)).toEqual([0, 2, 2, 0]);
});

test("half hours there are whole hours of UTC again", () => {
  const first = Date.UTC(2026, 5, 10, 11, 30);
  const rows = Array.from({ length: 48 }, (_, i) => {
    const wall = new Date(first + i * 30 * MINUTE_MS).toISOString().slice(0, 16).replace("T", " ");
    return `${wall},${20 + (i % 2)},50,2,0,${i < 8 ? 1 : 0}`;
  });
  const { series } = readStation([HEADER, ...rows].join("\n"), {
    ...PLACE,
    answers: { clock: "standard", label: "start" },
  });
  expect(series?.hours.startUtc[0]).toBe("2026-06-10T06:00:00Z");
  expect(series?.hours.airTempC[0]).toBe(20.5);
  expect(series?.hours.rainMm.slice(0, 2)).toEqual([2, 2]);
});
