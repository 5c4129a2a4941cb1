import { expect, test } from "vitest";
import { spotText } from "../../../web/place/spot.ts";

test("a spot stands with two decimals, by its reader's mark", () => {
  const spot = { latitude: 44.3, longitude: -98.204 };
  expect(spotText(spot)).toBe("44.30° N 98.20° W");
  expect(spotText(spot, { locale: "de-DE" })).toBe("44,30° N 98,20° W");
  expect(spotText({ latitude: -1, longitude: 0 }, { locale: "en-US" })).toBe("1.00° S 0.00° E");
});
