import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { weatherWords } from "../../../web/crew/PlaceWeather.tsx";
import { fetchPlaces } from "../../../web/crew/place-forecasts.ts";
import type { Manner } from "../../../web/format/manner.ts";
import { readSample } from "../../support/samples.ts";

const { series } = readSample("settled-dry");
const member = { airTempC: series.hours.airTempC };
const spot = { latitude: 44.3, longitude: -98.2 };
const places = {
  siteNames: { home: "Home farm", hill: "Hill farm", mill: "Mill" },
  spots: { hill: { latitude: 52.1, longitude: -98.2 } },
};
const NO_ENSEMBLE = "The ensemble of a service does not cover this place.";
const failed = { error: "weather-unavailable", message: "None.", issues: [] };

/** The server as the page asks it: no ensemble north of 50°, no forecast at all north of 60°. */
function serve(asked: string[], lateMs = 0): void {
  vi.stubGlobal("fetch", async (address: string) => {
    const query = new URL(address, "http://localhost/").searchParams;
    const latitude = Number(query.get("latitude"));
    const members = query.get("ensemble") === "true";
    if (members) asked.push(String(latitude));
    await new Promise((resolve) => setTimeout(resolve, members ? lateMs : 10));
    if (latitude > 60) return Response.json(failed, { status: 502 });
    const covered = members && latitude < 50;
    const notes = members && !covered ? [{ code: "ensemble-missing", text: NO_ENSEMBLE }] : [];
    const body = { ...series, members: covered ? [member, member] : undefined };
    return Response.json(body, { headers: { "Swathclock-Notes": JSON.stringify(notes) } });
  });
}

async function ask(of: Parameters<typeof fetchPlaces>[0]) {
  const done: string[] = [];
  const got = fetchPlaces(of, spot, new AbortController().signal, (some, all) =>
    done.push(`${some} of ${all}`),
  );
  await vi.runAllTimersAsync();
  return { got: await got, done };
}

beforeEach(() => {
  vi.useFakeTimers();
});

afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

test.each([20, 17_000])(
  "every place has its forecast with members, however late (%i ms); of one without, why is told",
  async (lateMs) => {
    const asked: string[] = [];
    serve(asked, lateMs);
    const { got, done } = await ask(places);
    if ("failures" in got) throw new Error(got.failures.join());
    const counts = Object.entries(got.series).map(([id, { members }]) => [id, members?.length ?? 0]);
    expect(Object.fromEntries(counts)).toEqual({ home: 2, hill: 0, mill: 2 });
    expect(got.notes).toEqual([`Hill farm: ${NO_ENSEMBLE}`]);
    // Places at one spot are asked for once.
    expect(asked).toEqual(["44.3", "52.1"]);
    expect([done[0], done.at(-1)]).toEqual(["0 of 3", "3 of 3"]);
  },
);

test("where a place has no forecast, none is taken and the place is named once", async () => {
  serve([]);
  const far = { latitude: 65, longitude: -98.2 };
  const { got } = await ask({ ...places, spots: { home: far, mill: { ...far, longitude: -99 } } });
  expect(got).toEqual({
    failures: [
      "Home farm and Mill: No weather service could be reached: is this machine online? Nothing is lost.",
    ],
  });
});

test("the weather of the places tells how many members it has", () => {
  const manner: Manner = { units: "metric", hour12: false, locale: "en-GB", zone: series.site.timeZone };
  const words = (...counts: readonly number[]) =>
    weatherWords(
      {
        from: "forecast",
        nowUtc: null,
        series: Object.fromEntries(
          counts.map((count, i) => [`s${i}`, { ...series, members: Array(count).fill(member) }]),
        ),
      },
      manner,
    );
  expect(words(21, 21)).toBe("Each place stands in its own forecast, with 21 members.");
  expect(words(21, 51)).toBe("Each place stands in its own forecast, with 21 to 51 members.");
  expect(words(0, 51)).toBe("Each place stands in its own forecast, some of them without members.");
  expect(words(0)).toBe("Each place stands in its own forecast, without members.");
});
