import { expect, test } from "vitest";
import { cutNamePlaces } from "../../../web/course/draw-marks.ts";
import { overlaps } from "../../../web/course/draw-text.ts";

test("the cut's name finds its place beside its stroke under the rain that hangs over it", () => {
  const [px, top, width] = [80, 10, 54];
  for (const rainPx of [0, 12, 24, 36, 60]) {
    const rain = { x0: px + 20, x1: px + 50, y0: top, y1: top + rainPx };
    const place = cutNamePlaces(px, top, width).find((one) => !overlaps(one, rain) && one.x0 >= 64);
    expect(place?.x0).toBe(px + 9);
    expect(place?.y0).toBeLessThan(top + rainPx + 16);
  }
  // To the left of a stroke at the right edge; farther off only where neither side is free.
  const places = cutNamePlaces(px, top, width);
  expect(places.find((one) => one.x1 < px)?.x1).toBe(px - 9);
  expect(places.findIndex((one) => one.x0 === px + 60)).toBe(20);
});
