import { expect, test } from "vitest";
import { leverWords } from "../../../web/print/lever-words.ts";
import { weatherLine } from "../../../web/print/PrintHead.tsx";
import { DEMO_INPUTS, type Inputs } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import type { Picture } from "../../../web/state/state.ts";
import type { WeatherSource } from "../../../web/weather/source.ts";
import { metric24, us12 } from "../../support/manners.ts";
import { readSample } from "../../support/samples.ts";

const ZONE = "America/Chicago";

function words(inputs: Inputs, manner = metric24(ZONE)): Readonly<Record<string, string>> {
  const { question } = readInputs(inputs);
  if (question === null) throw new Error("no question");
  return Object.fromEntries(leverWords(inputs, question, manner));
}

test("the levers as words, in the units and on the clock of the reader", () => {
  expect(words(DEMO_INPUTS)).toMatchObject({
    Crop: "Alfalfa",
    Area: "6.4 ha",
    Yield: "3.8 t/ha of dry matter",
    Swath: "covers 70 % of the cut",
    Conditioning: "rollers",
    Ted: "as the crop and route commonly get it",
    Routes: "dry hay, wrapped bales and wilted chop",
    "Working hours": "07:00 to 20:00",
    "Cut hours": "9, 13, 17",
  });
  // 6.4 ha are 15.81 acres (1 acre = 4046.856 m²).
  expect(words(DEMO_INPUTS, us12(ZONE))).toMatchObject({
    Area: "15.8 ac",
    "Working hours": "7 am to 8 pm",
    "Cut hours": "9 am, 1 pm, 5 pm",
  });
});

test("passes set by hand are told with their times", () => {
  const inputs = { ...DEMO_INPUTS, ted: "morning-after", rake: "before-window" } as const;
  expect(words(inputs).Ted).toMatch(/^the day after the cut at /);
  expect(words(inputs).Rake).toMatch(/^\d+ h before the baler$/);
  expect(words({ ...DEMO_INPUTS, ted: "after-cut" }).Ted).toBe("4 h after the cut");
  expect(words({ ...DEMO_INPUTS, ted: "none", rake: "none" })).toMatchObject({ Ted: "none", Rake: "none" });
});

test("the foot of a page says where the weather is from, and how old it is where that is known", () => {
  const sample = readSample("settled-dry");
  const at = (source: WeatherSource, nowMs: number) =>
    weatherLine({ source } as Picture, nowMs, metric24(ZONE));
  expect(at({ kind: "sample", ...sample }, 0)).toMatch(/^Invented demonstration farm and weather: /);
  const series = { ...sample.series, origin: "upload" as const };
  expect(at({ kind: "upload", name: "own.csv", series, missing: 0 }, 0)).toBe("Own weather: own.csv");
  const issued = { ...series, origin: "forecast" as const, issuedUtc: "2026-07-01T00:00:00Z" };
  const nowMs = Date.parse("2026-07-01T05:30:00Z");
  expect(at({ kind: "upload", name: "own.csv", series: issued, missing: 0 }, nowMs)).toBe(
    "Forecast own.csv, 5 h old",
  );
});
