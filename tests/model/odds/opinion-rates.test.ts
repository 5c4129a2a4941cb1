import { expect, test } from "vitest";
import { wetBasis } from "../../../model/drying/moisture.ts";
import { opinionRates, rateLnSdWithOpinions, UNCERTAINTY } from "../../../model/odds/index.ts";
import { prepareWeather } from "../../../model/weather/prepare.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";

const START_UTC = "2026-07-01T05:00:00Z";
const START_WB = 0.8;

function weatherWith(rainMm: Record<number, number> = {}) {
  const prepared = prepareWeather(inventedSpell(PLACES.southDakota, START_UTC, 72, { rainMm }));
  if (!prepared.ok) throw new Error("the invented spell must be usable");
  return prepared.value.weather;
}

/** Falls by this much of ln(dry basis) an hour, by day alone: invented. */
function fallingBy(perHour: number) {
  const startDb = START_WB / (1 - START_WB);
  let ln = 0;
  return Float64Array.from({ length: 72 }, (_, i) => {
    if (i % 24 < 12) ln += perHour;
    return wetBasis(startDb * Math.exp(-ln));
  });
}

const startUtcMs = Date.parse(START_UTC);
const course = { startUtcMs, cutUtcMs: startUtcMs, moistureWb: fallingBy(0.13) };
const ratesOf = (perHour: readonly number[], weather = weatherWith()) =>
  opinionRates(
    course,
    perHour.map((rate) => ({ moistureWb: fallingBy(rate) })),
    START_WB,
    weather,
  );

// By hand: M = M0 exp(-k E) has its rate in the exponent, whatever E has done in between.
test("an opinion's rate is that of its exponent, though it may come to 50 % a night later", () => {
  // 80 to 50 % is ln 4 = 1.386: within 11 h at 0.13 an hour, and not before night at 0.1.
  expect(fallingBy(0.1)[11]).toBeGreaterThan(0.5);
  const rates = ratesOf([0.1, 0.13, 0.26]);
  expect(rates[0]).toBeCloseTo(0.1 / 0.13, 10);
  expect(rates[1]).toBeCloseTo(1, 10);
  expect(rates[2]).toBeCloseTo(2, 10);
});

test("rain ends the comparison, and where hardly anything has dried by then nothing is told", () => {
  expect(ratesOf([0.1], weatherWith({ 6: 2 }))[0]).toBeCloseTo(0.1 / 0.13, 10);
  expect(ratesOf([0.1], weatherWith({ 1: 2 }))).toEqual([]);
  expect(ratesOf([0.1], weatherWith({ 0: 2 }))).toEqual([]);
});

test("the spread among course and opinions widens the rate's own", () => {
  const own = UNCERTAINTY.rateLnSd.value;
  expect(rateLnSdWithOpinions([])).toBe(own);
  expect(rateLnSdWithOpinions([1, 1])).toBeCloseTo(own, 12);
  // By hand: ln of 1 and of e^0.4 lie 0.2 either side of their mean.
  expect(rateLnSdWithOpinions([Math.exp(0.4)])).toBeCloseTo(Math.hypot(own, 0.2), 12);
});
