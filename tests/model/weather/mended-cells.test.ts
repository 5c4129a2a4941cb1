import { expect, test } from "vitest";
import { withMendedCells } from "../../../model/weather/mended-cells.ts";
import { readWeatherFile } from "../../../model/weather/station/index.ts";
import { impossibleRain } from "../../../web/panel/RainMends.tsx";
import { sampleSeries } from "../../support/samples.ts";

test("one cell is replaced, the rest of the file stays byte for byte", () => {
  const text = 'time;rain\r\n10:00;"3000"\r\n11:00;0\r\n';
  expect(withMendedCells(text, [{ row: 2, value: "3000", by: "0" }])).toBe(
    "time;rain\r\n10:00;0\r\n11:00;0\r\n",
  );
  expect(withMendedCells(text, [{ row: 9, value: "3000", by: "0" }])).toBe(text);
  expect(withMendedCells("a,b\n5,5\n", [{ row: 2, value: "5", by: "0" }])).toBe("a,b\n5,5\n");
});

test("rain that cannot be is found by its row, and no longer closes the file once it is corrected", () => {
  const { site, hours } = sampleSeries("settled-dry");
  const names = ["airTempC", "relHumidityPct", "windSpeedMps", "solarWm2"] as const;
  const lines = hours.startUtc.map((utc, i) =>
    [utc, ...names.map((name) => hours[name]?.[i]), i === 100 ? 3000 : hours.rainMm[i]].join(","),
  );
  const text = [`startUtc,${names.join(",")},rainMm`, ...lines].join("\n");
  const place = { site, windHeightM: 2 };
  const wrong = readWeatherFile(text, place);
  const [problem] = impossibleRain(wrong.problems, wrong);
  expect([wrong.series, problem?.row, problem?.value]).toEqual([null, 102, "3000"]);
  const mends = [{ row: problem?.row ?? 0, value: problem?.value ?? "", by: "2.5" }];
  const right = readWeatherFile(withMendedCells(text, mends), place);
  expect(right.series?.hours.rainMm[100]).toBe(2.5);
  expect(impossibleRain(right.problems, right)).toEqual([]);
});
