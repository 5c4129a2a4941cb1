import { expect, test } from "vitest";
import { ribbonColour, toRibbon } from "../../../web/board/ribbon.ts";

const HOUR_MS = 3_600_000;
const scale = {
  fromMs: 0,
  toMs: 240 * HOUR_MS,
  x0: 100,
  x1: 1060,
  x: (ms: number) => 100 + (ms / HOUR_MS) * 4,
};
const channels = (hex: string) => [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));

/** The colour of the drawn gradient at a place across. */
function drawn(stops: readonly { readonly x: number; readonly colour: string }[], x: number): number[] {
  const next = Math.max(
    1,
    stops.findIndex((stop) => stop.x >= x),
  );
  const [a, b] = [stops[next - 1], stops[next]];
  if (!a || !b) throw new Error("too few colours");
  const share = (x - a.x) / (b.x - a.x);
  const to = channels(b.colour);
  return channels(a.colour).map((channel, k) => channel + share * ((to[k] ?? 0) - channel));
}

test("few colours draw the swath's moisture as every hour would, and a week without a change hardly any", () => {
  const moistureWb = Float64Array.from({ length: 200 }, (_, i) =>
    i < 100 ? 0.15 + 0.63 * Math.exp(-i / 25) * (1 + 0.2 * Math.sin(i / 3.8) ** 2) : 0.15,
  );
  const swath = { startMs: 10 * HOUR_MS, moistureWb, freeWaterMm: new Float64Array(200) };
  const ribbon = toRibbon(swath, scale, 40, 13);
  const stops = ribbon?.stops ?? [];
  expect(stops.length).toBeGreaterThan(4);
  expect(stops.length).toBeLessThan(25);
  moistureWb.forEach((wb, i) => {
    const seen = drawn(stops, scale.x((11 + i) * HOUR_MS));
    channels(ribbonColour(wb)).forEach((channel, k) => {
      expect(Math.abs((seen[k] ?? 0) - channel), `hour ${i}`).toBeLessThanOrEqual(11);
    });
  });
  expect(stops.filter(({ x }) => x > scale.x(120 * HOUR_MS)).length).toBeLessThanOrEqual(2);
});

test("one hour is no swath to draw", () => {
  const one = { startMs: 0, moistureWb: Float64Array.of(0.7), freeWaterMm: Float64Array.of(0) };
  expect(toRibbon(one, scale, 40, 13)).toBeNull();
});
