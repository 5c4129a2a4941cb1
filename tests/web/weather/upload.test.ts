import { expect, test } from "vitest";
import { MAX_UPLOAD_BYTES as SERVER_LIMIT } from "../../../server/limit-body.ts";
import { MAX_UPLOAD_BYTES, readPlace, sizeError } from "../../../web/weather/upload.ts";

const place = {
  latitude: "39,46",
  longitude: "-118.77",
  elevationM: "1208",
  timeZone: "America/Los_Angeles",
  windHeightM: "2",
};

test("page and server refuse the same size", () => {
  expect(MAX_UPLOAD_BYTES).toBe(SERVER_LIMIT);
  expect(sizeError(SERVER_LIMIT)).toBeNull();
  expect(sizeError(500 * 1024 * 1024)).toMatch(/500 MB, must be at most 64 MB/);
});

test("a place becomes a site, and what was said of the file goes to the reader that asked", () => {
  const { errors, place: read } = readPlace(place, { airTempC: "degF", "unit.Wind": "mph", clock: "utc" });
  expect(errors).toEqual({});
  expect(read).toEqual({
    site: { latitude: 39.46, longitude: -118.77, elevationM: 1208, timeZone: "America/Los_Angeles" },
    windHeightM: 2,
    answers: { airTempC: "degF" },
    stationAnswers: { "unit.Wind": "mph", clock: "utc" },
  });
});

test("every wrong field is named with its value and limit", () => {
  const { errors, place: read } = readPlace({
    ...place,
    latitude: "444",
    elevationM: "",
    timeZone: "Mars/Olympus",
  });
  expect(read).toBeNull();
  expect(errors.latitude).toMatch(/444.*at most 90/);
  expect(errors.elevationM).toMatch(/Empty/);
  expect(errors.timeZone).toMatch(/Mars\/Olympus/);
});

test("a limit speaks in the units and numbers of its reader; what is kept stays metric", () => {
  const high = { ...place, elevationM: "9144" };
  // 9144 m are 30 000 ft exactly (1 ft = 0.3048 m); 6000 m are 19 685.04 ft.
  expect(readPlace(high).errors.elevationM).toMatch(/^Got 9,144, must be at least -450 and at most 6000 m/);
  const us = readPlace(high, {}, { units: "us", locale: "en-US" }).errors.elevationM;
  expect(us).toMatch(/^Got 30,000, .* at most 19,?600 ft/);
  expect(readPlace(place, {}, { units: "us" }).place).toEqual(readPlace(place).place);
});
