import { expect, test } from "vitest";
import { previewText, previewUnit } from "../../../web/panel/Understood.tsx";

test("the first rows of a file are shown in the units and numbers of the page", () => {
  const us = { units: "us", locale: "en-US" } as const;
  expect(
    ["airTempC", "windSpeedMps", "rainMm", "rainRateMmH", "relHumidityPct"].map((name) =>
      previewUnit(name, "us"),
    ),
  ).toEqual(["°F", "mph", "in", "in/h", "%"]);
  expect([previewText("airTempC", 20, us), previewText("windSpeedMps", 4.4704, us)]).toEqual(["68", "10"]);
  expect([
    previewUnit("rainMm", "metric"),
    previewText("rainMm", 2.5, { units: "metric", locale: "de-DE" }),
  ]).toEqual(["mm", "2,5"]);
});
