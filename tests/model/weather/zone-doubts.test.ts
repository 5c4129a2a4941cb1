import { describe, expect, test } from "vitest";
import { CANONICAL_CSV_TEMPLATE, parseCanonicalCsv, prepareWeather } from "../../../model/weather/index.ts";
import { zoneDoubt } from "../../../model/weather/zone-doubts.ts";
import { DAKOTA, makeSeries } from "./make-series.ts";

const WINTER = Date.UTC(2026, 0, 10);
const SUMMER = Date.UTC(2026, 6, 10);

describe("a time zone against the longitude", () => {
  test.each([
    ["America/Los_Angeles", -118.8],
    ["America/Chicago", -98.2],
    ["Europe/Dublin", -7.8],
    ["Europe/Madrid", -8.9],
    ["Asia/Kolkata", 77],
    ["Australia/Lord_Howe", 159.1],
    ["Pacific/Auckland", 171.7],
    // Clocks far ahead of the sun, and both sides of the date line.
    ["Asia/Shanghai", 75.9],
    ["Pacific/Chatham", -176.5],
    ["Pacific/Kiritimati", -157.4],
    ["Asia/Anadyr", -173],
  ])("%s at longitude %d is taken as it is, in summer and in winter", (timeZone, longitude) => {
    const site = { ...DAKOTA, timeZone, longitude };
    expect([zoneDoubt(site, WINTER), zoneDoubt(site, SUMMER)]).toEqual([null, null]);
  });

  test.each([WINTER, SUMMER])("Europe/Vienna at -118.8 names zone, offset and longitude", (utcMs) => {
    const said = zoneDoubt({ ...DAKOTA, timeZone: "Europe/Vienna", longitude: -118.8 }, utcMs);
    expect(said).toContain("Europe/Vienna (standard time UTC+1)");
    expect(said).toContain("longitude -118.8");
    expect(said).toContain("UTC-7.92: 8.9 h apart, at most 3.5 h");
  });

  test("is a warning of the weather made ready, and the weather is used", () => {
    const prepared = prepareWeather(makeSeries({ site: { ...DAKOTA, timeZone: "Europe/Vienna" } }));
    expect(prepared).toMatchObject({ ok: true });
    if (prepared.ok)
      expect(prepared.value.warnings[0]).toMatchObject({
        code: "zone-far-from-longitude",
        text: expect.stringContaining("Europe/Vienna"),
      });
  });

  test("is a warning of a file under a code of its own, and there is a series", () => {
    const site = { ...DAKOTA, timeZone: "Europe/Vienna" };
    const { series, questions, problems } = parseCanonicalCsv(CANONICAL_CSV_TEMPLATE, {
      site,
      windHeightM: 2,
    });
    expect(series).not.toBeNull();
    expect(questions).toEqual([]);
    expect(problems).toMatchObject([
      { code: "zone-far-from-longitude", severity: "warning", column: "site.timeZone" },
    ]);
  });
});
