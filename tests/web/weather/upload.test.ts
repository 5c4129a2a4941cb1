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

test("a place becomes a query", () => {
  const { errors, query } = readPlace(place);
  expect(errors).toEqual({});
  expect(new URLSearchParams(query ?? "").get("latitude")).toBe("39.46");
});

test("every wrong field is named with its value and limit", () => {
  const { errors, query } = readPlace({
    ...place,
    latitude: "444",
    elevationM: "",
    timeZone: "Mars/Olympus",
  });
  expect(query).toBeNull();
  expect(errors.latitude).toMatch(/444.*at most 90/);
  expect(errors.elevationM).toMatch(/Empty/);
  expect(errors.timeZone).toMatch(/Mars\/Olympus/);
});
