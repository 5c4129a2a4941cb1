import { describe, expect, test } from "vitest";
import { linkOf } from "../../../web/link/link-of.ts";
import { readLink } from "../../../web/link/read-link.ts";
import { readKept, visitOf, worthKeeping } from "../../../web/offline/kept.ts";
import { answersLink } from "../../../web/offline/use-offline.ts";
import { wayOf } from "../../../web/offline/way.ts";
import { DEMO_INPUTS } from "../../../web/state/inputs.ts";
import { firstState, type Picture } from "../../../web/state/state.ts";
import type { WeatherSource } from "../../../web/weather/source.ts";
import { readSample } from "../../support/samples.ts";

const SCOPE = "https://farm.example/";
const FILES = new Set(["index.html", "assets/index-abc.js"]);

describe("what the service worker does", () => {
  test.each([
    ["GET", "navigate", "", "page"],
    ["GET", "navigate", "?weather=settled-dry&crop=corn", "page"],
    ["GET", "navigate", "index.html", "page"],
    ["GET", "navigate", "openapi.json", "network"],
    ["GET", "cors", "assets/index-abc.js", "file"],
    ["GET", "cors", "assets/index-other.js", "file"],
    ["GET", "cors", "api/samples", "kept"],
    ["GET", "cors", "api/samples?x=1", "kept"],
    ["GET", "cors", "api/template.csv", "network"],
    ["POST", "cors", "api/samples", "network"],
    ["POST", "cors", "api/weather/check?latitude=1", "network"],
    ["POST", "navigate", "", "network"],
    ["HEAD", "cors", "api/samples", "network"],
  ] as const)("%s %s /%s: %s", (method, mode, path, way) => {
    expect(wayOf({ method, mode, url: `${SCOPE}${path}` }, SCOPE, FILES)).toBe(way);
  });

  test("other servers are not its matter", () => {
    const url = "https://elsewhere.example/api/samples";
    expect(wayOf({ method: "GET", mode: "cors", url }, SCOPE, FILES)).toBe("network");
  });
});

const sample: WeatherSource = { kind: "sample", ...readSample("settled-dry") };
const own: WeatherSource = { kind: "upload", name: "own.csv", series: sample.series, missing: 3 };
const inputs = { ...DEMO_INPUTS, fieldName: "Hill", crop: "corn" as const };
const { upload } = firstState({
  timeZone: "UTC",
  locale: "en",
  nowMs: 0,
  online: true,
  preferences: { units: "metric", theme: "system" },
  inputs,
});
const picture = (source: WeatherSource) => ({ source, inputs }) as Picture;

describe("the last visit on the device", () => {
  test("comes back as it was", () => {
    const place = { ...upload.place, latitude: "44.3" };
    const visit = visitOf({ picture: picture(own), upload: { ...upload, place } }, 1234);
    const read = readKept(structuredClone(visit));
    expect(read).toMatchObject({ savedMs: 1234, source: own, place });
    expect(read?.link.inputs).toEqual(inputs);
    expect(read?.link.problems).toEqual([]);
    expect(visitOf({ picture: null, upload }, 1)).toBeNull();
  });

  test("what is not a visit of this version is none", () => {
    const good = visitOf({ picture: picture(sample), upload }, 1);
    expect(readKept(good)).not.toBeNull();
    const series = { ...sample.series, hours: { ...sample.series.hours, airTempC: [999] } };
    for (const bad of [
      undefined,
      null,
      7,
      {},
      { ...good, version: 2 },
      { ...good, savedMs: "x" },
      { ...good, savedMs: Number.NaN },
      { ...good, source: { ...sample, kind: "other" } },
      { ...good, source: { ...sample, series } },
      { ...good, source: { ...sample, series: { site: {}, hours: {} } } },
      { ...good, source: { ...sample, series: null } },
    ])
      expect(readKept(bad)).toBeNull();
  });

  test("an own file is kept, and nothing takes its place but another", () => {
    const before = readKept(visitOf({ picture: picture(own), upload }, 1));
    const past = [{ what: "crop", before: DEMO_INPUTS }];
    expect(worthKeeping({ picture: picture(own), past: [] }, null)).toBe(true);
    expect(worthKeeping({ picture: picture(sample), past: [] }, null)).toBe(false);
    expect(worthKeeping({ picture: picture(sample), past }, null)).toBe(true);
    expect(worthKeeping({ picture: picture(sample), past }, before)).toBe(false);
    expect(worthKeeping({ picture: null, past }, null)).toBe(false);
  });

  test("it is put back at the plain address and at its own mark, never over another's link", () => {
    const kept = readKept(visitOf({ picture: picture(own), upload }, 1));
    const first = readSample("showers-every-other-day").series;
    if (kept === null) throw new Error("nothing kept");
    const link = (source: WeatherSource) =>
      readLink(linkOf({ inputs, source, selection: null, place: upload.place }, true));
    expect(answersLink(kept, readLink(""))).toBe(true);
    expect(answersLink(kept, link(own))).toBe(true);
    expect(answersLink(kept, link(sample))).toBe(false);
    expect(answersLink(kept, link({ ...own, series: first }))).toBe(false);
  });
});
