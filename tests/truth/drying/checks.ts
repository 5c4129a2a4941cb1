import type { DryingParameters } from "../../../model/drying/coefficients.ts";
import { DRYING_PARAMETERS } from "../../../model/drying/coefficients.ts";
import type { Course } from "../../../model/drying/course.ts";
import { referenceCourse } from "../../../model/drying/course-reference.ts";
import { dryBasis } from "../../../model/drying/moisture.ts";
import type { Operation } from "../../../model/drying/operations.ts";
import type { SwathRequest } from "../../../model/drying/request.ts";
import type { HourlyWeather } from "../../../model/weather/hourly.ts";
import { repeatedDays, STANDARD_SWATH, START_MS, STILL_SHADE, steady, weatherOf } from "./conditions.ts";

/** How a row was used: to fit coefficients, or read after they were frozen. "from memory" = its source is. */
export type Use = "fitted on" | "held out" | "from memory";

export interface Check {
  readonly id: string;
  readonly what: string;
  readonly source: string;
  readonly use: Use;
  readonly value: number;
  readonly low: number;
  readonly high: number;
  /** True where the row is shown but not required to hold. */
  readonly reportOnly?: boolean;
}

const HOUR_MS = 3_600_000;

export interface Lab {
  run(
    weather: HourlyWeather,
    swath: Partial<SwathRequest>,
    cutHour?: number,
    ops?: readonly Operation[],
  ): Course;
}

export function lab(p: DryingParameters): Lab {
  return {
    run: (weather, swath, cutHour = 0, ops = []) =>
      referenceCourse(weather, { ...STANDARD_SWATH, ...swath }, START_MS + cutHour * HOUR_MS, ops, p),
  };
}

/** Hours from the cut until the tissue first reaches a moisture, interpolated in the hour; Infinity if never. */
export function hoursTo(course: Course, initialWb: number, targetWb: number): number {
  let before = initialWb;
  for (let i = 0; i < course.count; i++) {
    const now = course.moistureWb[i] as number;
    if (now <= targetWb) return i + (before - targetWb) / (before - now);
    before = now;
  }
  return Number.POSITIVE_INFINITY;
}

/** Rate constant between two moistures, 1/h: the mean slope of ln(dry-basis moisture). */
function rateBetween(course: Course, initialWb: number, fromWb: number, toWb: number): number {
  const hours = hoursTo(course, initialWb, toWb) - hoursTo(course, initialWb, fromWb);
  return Math.log(dryBasis(fromWb) / dryBasis(toWb)) / hours;
}

/** Rotz & Chen 1985 regression, coefficients from memory, 1/h; typed again here, apart from the model's own. */
export function rotzChen(
  sunWm2: number,
  vpdKPa: number,
  soilPct: number,
  densityGM2: number,
  day: 0 | 1,
): number {
  return (sunWm2 + 43.8 * vpdKPa) / (61.4 * soilPct + densityGM2 * (1.82 - 0.83 * day) * 1.68 + 2767);
}

const ES25 = 3.1678;
export const PAN_MM_PER_H = 0.4095 / 0.75; // FAO-56 hourly at the standard conditions, over a pan coefficient of 0.75

export const SUNNY_DRY = {
  minTempC: 12,
  maxTempC: 27,
  dewPointC: 11,
  windMps: 2.5,
  nightWindMps: 1,
  noonSunWm2: 880,
  cloudFrac: 0,
};
export const CLOUDY_WET = {
  minTempC: 15,
  maxTempC: 21,
  dewPointC: 14,
  windMps: 2.5,
  nightWindMps: 1.5,
  noonSunWm2: 400,
  cloudFrac: 0.85,
};
export const CORN_DAY = {
  minTempC: 22,
  maxTempC: 36,
  dewPointC: 13,
  windMps: 3,
  noonSunWm2: 900,
  cloudFrac: 0,
};

export const DROUGHT_CORN: Partial<SwathRequest> = {
  crop: "drought-corn",
  dryMatterTHa: 3,
  initialMoistureWb: 0.86,
  coveredFraction: 0.5,
  conditioning: "roll",
  stubbleCm: 30,
};

export function rotzRatios(p: DryingParameters): { sun: number; vpd: number; ratio: number; ours: number }[] {
  const { run } = lab(p);
  const rows: { sun: number; vpd: number; ratio: number; ours: number }[] = [];
  for (const sun of [200, 400, 600, 850]) {
    for (const vpd of [0.5, 1.5, 2.5]) {
      const course = run(steady(120, { solarWm2: sun, rhFrac: 1 - vpd / ES25 }), {});
      const ours = rateBetween(course, 0.8, 0.75, 0.4);
      rows.push({ sun, vpd, ours, ratio: ours / rotzChen(sun, vpd, 9, 450, 1) });
    }
  }
  return rows;
}

/** Every row of the accuracy table, computed with the given coefficients. */
export function allChecks(p: DryingParameters = DRYING_PARAMETERS): Check[] {
  const { run } = lab(p);
  const checks: Check[] = [];
  const add = (
    id: string,
    what: string,
    source: string,
    use: Use,
    value: number,
    low: number,
    high: number,
    reportOnly = false,
  ) => checks.push({ id, what, source, use, value, low, high, ...(reportOnly ? { reportOnly } : {}) });

  // 1985 regression
  for (const { sun, vpd, ratio } of rotzRatios(p)) {
    add(
      `rotz-${sun}-${vpd}`,
      `rate 75 -> 40 % over the 1985 regression's, sun ${sun} W/m², VPD ${vpd} kPa`,
      "Rotz & Chen 1985, Trans. ASAE 28:1686, coefficients from memory",
      vpd === 1.5 && sun >= 400 ? "fitted on" : "from memory",
      ratio,
      0.75,
      1.25,
      sun < 400,
    );
  }
  const hot = run(steady(120, { airTempC: 36, rhFrac: 0.3, solarWm2: 900 }), {});
  add(
    "rotz-hot",
    "the same, sun 900 W/m², 36 °C, VPD 4.2 kPa: beyond the regression's weather",
    "Rotz & Chen 1985, coefficients from memory",
    "from memory",
    rateBetween(hot, 0.8, 0.75, 0.4) / rotzChen(900, 4.16, 9, 450, 1),
    0.75,
    1.25,
    true,
  );
  // density
  const densityRate = (gM2: number) => {
    const course = run(steady(120), { dryMatterTHa: gM2 / 100 });
    return rateBetween(course, 0.8, 0.8, 0.6);
  };
  const exponent = (a: number, b: number) => -Math.log(densityRate(b) / densityRate(a)) / Math.log(b / a);
  add(
    "density",
    "density exponent 200-900 g/m², 80 -> 60 %",
    "Wright 1997 0.56; Pitt 1985 0.65; field days 0.44",
    "fitted on",
    exponent(200, 900),
    0.4,
    0.7,
  );
  add(
    "density-thin",
    "density exponent 200-450 g/m²",
    "the same",
    "held out",
    exponent(200, 450),
    0.4,
    0.7,
    true,
  );
  add(
    "density-thick",
    "density exponent 450-900 g/m²",
    "the same",
    "held out",
    exponent(450, 900),
    0.4,
    0.7,
    true,
  );
  // pan evaporation
  const pan = (gM2: number) =>
    hoursTo(run(steady(400), { dryMatterTHa: gM2 / 100 }), 0.8, 0.2) * PAN_MM_PER_H;
  add(
    "pan-448",
    "pan evaporation 80 -> 20 %, 448 g/m², mm",
    "UC ANR digest of the pan method, 2013",
    "fitted on",
    pan(448),
    12.4 * 0.65,
    12.4 * 1.35,
  );
  const thick = run(steady(400), { dryMatterTHa: 30, coveredFraction: 30 / 44.8 });
  add(
    "pan-4480",
    "pan evaporation 80 -> 20 %, 4480 g/m², mm",
    "UC ANR digest of the pan method, 2013",
    "held out",
    hoursTo(thick, 0.8, 0.2) * PAN_MM_PER_H,
    48.5 * 0.5,
    48.5 * 1.5,
  );
  // thin layer in still shade
  // Shade is taken as a full cloud: under a clear sky a dark swath would cool below the air and not dry at all.
  const shade = (rh: number, targetWb: number) =>
    hoursTo(
      run(steady(2000, { ...STILL_SHADE, airTempC: 30, rhFrac: rh, cloudFrac: 1 }), {
        dryMatterTHa: 1,
        conditioning: "none",
      }),
      0.8,
      targetWb,
    );
  add(
    "shade-ratio",
    "still shade 30 °C under full cloud, 100 g/m², unconditioned: hours to 30 %, RH 70 over RH 45",
    "Crump 1985 via MacDonald & Clark 1987: 1.88 to 20 %",
    "held out",
    shade(0.7, 0.3) / shade(0.45, 0.3),
    1.6,
    2.4,
  );
  add(
    "shade-ratio-22",
    "the same to 22 % (20 % is the equilibrium itself at RH 70)",
    "Crump 1985 via MacDonald & Clark 1987: 1.88 to 20 %",
    "held out",
    shade(0.7, 0.22) / shade(0.45, 0.22),
    1.6,
    2.4,
    true,
  );
  // clear calm night
  const night = weatherOf(10, (h) => ({
    airTempC: 18 - 0.6 * h,
    rhFrac: 0.75 + 0.022 * h,
    wind2mMps: 0.5,
    solarWm2: 0,
    cloudFrac: 0,
  }));
  const thin = run(night, { dryMatterTHa: 3, initialMoistureWb: 0.16 });
  const row = run(night, { dryMatterTHa: 3, coveredFraction: 0.3, initialMoistureWb: 0.16 });
  const last = thin.count - 1;
  const tissueGain = (c: Course) => (c.moistureWb[last] as number) * 100 - 16;
  const waterGain = (c: Course) =>
    (c.freeWaterMm[last] as number) +
    ((dryBasis(c.moistureWb[last] as number) - dryBasis(0.16)) * (c.dryMatterGM2[last] as number)) / 1000;
  add(
    "night-tissue",
    "clear calm night, thin swath 300 g/m² at 16 %: points gained by the tissue",
    "target of the night: 5-15 points (derived)",
    "fitted on",
    tissueGain(thin),
    5,
    15,
  );
  add(
    "night-water",
    "the same: film and tissue together, mm",
    "Ritter et al. 2019 0.14 ± 0.12 mm; Jacobs et al. 2006 0.15 mm",
    "held out",
    waterGain(thin),
    0.03,
    0.2,
  );
  add(
    "night-row",
    "windrow over thin swath, water per kg",
    "derived: only the top collects",
    "held out",
    waterGain(row) /
      (row.dryMatterGM2[last] as number) /
      (waterGain(thin) / (thin.dryMatterGM2[last] as number)),
    0,
    0.95,
  );
  // wind
  const windRate = (wind: number, sun: number) => {
    const c = run(steady(300, { wind2mMps: wind, solarWm2: sun }), {});
    return rateBetween(c, 0.8, 0.78, 0.5);
  };
  add(
    "wind-sun",
    "rate at 4 over 1 m/s, 800 W/m²",
    "Thompson 1981; Atzema: wind slows drying in sun",
    "held out",
    windRate(4, 800) / windRate(1, 800),
    0,
    0.999,
  );
  add(
    "wind-dark",
    "rate at 4 over 1 m/s in the dark",
    "Thompson 1981; combination equation",
    "held out",
    windRate(4, 0) / windRate(1, 0),
    1.001,
    9,
  );
  add(
    "wind-sun-1-8",
    "rate at 1 over 8 m/s, 800 W/m²",
    "trial with free convection: 1.6",
    "held out",
    windRate(1, 800) / windRate(8, 800),
    1,
    2,
    true,
  );
  // humid week
  const humid = run(
    repeatedDays(7, {
      minTempC: 21,
      maxTempC: 24,
      dewPointC: 20.8,
      windMps: 2,
      nightWindMps: 1,
      noonSunWm2: 330,
      cloudFrac: 0.9,
    }),
    { dryMatterTHa: 4, coveredFraction: 0.7, soil: "moist" },
    9,
  );
  add(
    "humid-week",
    "humid week: lowest moisture in 7 days, %",
    "isotherm: RH 80-100 % holds hay over 20 %",
    "held out",
    Math.min(...humid.moistureWb) * 100,
    16,
    80,
  );
  // conditioning
  const fairDays = repeatedDays(9, { ...SUNNY_DRY });
  const timeTo = (swath: Partial<SwathRequest>, target: number, weather = steady(400)) =>
    hoursTo(run(weather, swath), 0.8, target);
  add(
    "cond-68",
    "roll over none, rate to 68 %",
    "Rennie 2012 x1.45-1.55; extension +15-40 %",
    "fitted on",
    timeTo({ conditioning: "none" }, 0.68) / timeTo({}, 0.68),
    1.1,
    1.55,
  );
  add(
    "cond-20",
    "roll over none, rate to 20 %",
    "from memory x1.6-1.8; extension +20-40 %",
    "fitted on",
    timeTo({ conditioning: "none" }, 0.2) / timeTo({}, 0.2),
    1.3,
    1.8,
  );
  add(
    "intensive-30",
    "intensive over roll, rate to 30 %",
    "maceration x2.1 against a windrow",
    "fitted on",
    timeTo({}, 0.3) / timeTo({ conditioning: "intensive" }, 0.3),
    1.8,
    2.4,
  );
  add(
    "agent-30",
    "drying agent over none, rate to 30 %",
    "Rotz & Thomas 1988: +32 %, 29 trials",
    "fitted on",
    timeTo({}, 0.3) / timeTo({ dryingAgent: true }, 0.3),
    1.2,
    1.45,
  );
  // cover
  const covered = (cover: number, target: number) =>
    hoursTo(run(fairDays, { dryMatterTHa: 4, coveredFraction: cover }, 9), 0.8, target);
  const saved = (target: number) => 100 * (1 - covered(0.7, target) / covered(0.45, target));
  add(
    "cover-65",
    "cover 0.70 against 0.45: hours saved to 65 %, %",
    "Wisconsin: 25-40 % shorter",
    "held out",
    saved(0.65),
    20,
    40,
  );
  const sunny = (cover: number, target: number) =>
    hoursTo(run(steady(300), { dryMatterTHa: 4, coveredFraction: cover }), 0.8, target);
  const savedSunny = (target: number) => 100 * (1 - sunny(0.7, target) / sunny(0.45, target));
  add(
    "cover-20",
    "cover 0.70 against 0.45: sunny hours saved to 20 %, %",
    "Wisconsin: 25-40 % shorter",
    "fitted on",
    savedSunny(0.2),
    20,
    40,
  );
  // tedding
  const tedded = (cover: number, after: number) => {
    const swath: Partial<SwathRequest> = { dryMatterTHa: 4, coveredFraction: cover };
    const at = START_MS + 33 * HOUR_MS;
    const plain = run(fairDays, swath, 9);
    const ted = run(fairDays, swath, 9, [{ kind: "ted", atUtcMs: at, coveredFraction: after }]);
    const from = 33 - 9 - 1;
    const to = 44 - 9 - 1;
    const rate = (c: Course) =>
      Math.log(dryBasis(c.moistureWb[from] as number) / dryBasis(c.moistureWb[to] as number));
    return 100 * (rate(ted) / rate(plain) - 1);
  };
  add(
    "ted-rows",
    "tedding of rows (0.5 -> 0.95) at 09:00: gain in that day's drying, %",
    "Pattey et al. 1988: +40 % that day",
    "fitted on",
    tedded(0.5, 0.95),
    20,
    50,
  );
  add(
    "ted-spread",
    "tedding of a fully spread swath: gain that day, %",
    "Atzema: none",
    "fitted on",
    tedded(1, 1),
    -5,
    5,
  );
  // cloud and wet soil
  const spell = (day: typeof SUNNY_DRY, soil: "dry" | "wet") =>
    hoursTo(run(repeatedDays(30, day), { dryMatterTHa: 4, coveredFraction: 0.7, soil }, 9), 0.8, 0.2);
  const steadyTime = (sun: number, rh: number, cloud: number, soil: "dry" | "wet", t: number) =>
    hoursTo(
      run(steady(600, { solarWm2: sun, rhFrac: rh, cloudFrac: cloud, airTempC: t }), { soil }),
      0.8,
      0.2,
    );
  add(
    "cloud-wet",
    "cloud and wet soil (200 W/m², 20 °C, RH 60 %, cloud 0.9) over sun and dry soil: hours 80 -> 20 %",
    "the 1985 family of work: about 3 times",
    "held out",
    steadyTime(200, 0.6, 0.9, "wet", 20) / steadyTime(600, 0.5, 0, "dry", 25),
    2.3,
    3.5,
  );
  add(
    "cloud-wet-days",
    "the same through days and nights",
    "the 1985 family of work: about 3 times",
    "held out",
    spell(CLOUDY_WET, "wet") / spell(SUNNY_DRY, "dry"),
    2.3,
    3.5,
    true,
  );
  // drought corn
  const corn = repeatedDays(25, CORN_DAY);
  const daylightTo = (swath: Partial<SwathRequest>, target: number) => {
    const c = run(corn, { ...DROUGHT_CORN, ...swath }, 9);
    const hours = hoursTo(c, 0.86, target);
    let light = 0;
    for (let h = 0; h < Math.min(hours, c.count); h++) {
      const clock = (9 + h) % 24;
      if (clock >= 5 && clock < 20) light += Math.min(1, hours - h);
    }
    return { light, days: hours / 24 };
  };
  add(
    "corn-70",
    "drought corn, roll: daylight hours 86 -> 70 %",
    "common practice, no source: hours, not days",
    "fitted on",
    daylightTo({}, 0.7).light,
    5,
    14,
  );
  add(
    "corn-18",
    "drought corn, roll: days 86 -> 18 %",
    "North Dakota State: stems cracked, 7-10 days",
    "fitted on",
    daylightTo({}, 0.18).days,
    5,
    11,
  );
  add(
    "corn-18-none",
    "drought corn, unconditioned: days 86 -> 18 %",
    "North Dakota State: crimping essential",
    "fitted on",
    Math.min(99, daylightTo({ conditioning: "none" }, 0.18).days),
    14,
    99,
  );
  // development cases
  const firstDay = (swath: Partial<SwathRequest>) => {
    const c = run(repeatedDays(2, { ...SUNNY_DRY, noonSunWm2: 750 }), { dryMatterTHa: 4, ...swath }, 9);
    return Math.log(dryBasis(0.8) / dryBasis(c.moistureWb[8] as number)) / 9;
  };
  add(
    "rennie-none",
    "first-day exponent, unconditioned, 1/h",
    "Rennie 2012: 0.09 (weather not given: fair assumed)",
    "held out",
    firstDay({ conditioning: "none" }),
    0.06,
    0.15,
    true,
  );
  add(
    "rennie-crimp",
    "first-day exponent, crimped, 1/h",
    "Rennie 2012: 0.13-0.14",
    "held out",
    firstDay({}),
    0.1,
    0.2,
    true,
  );
  const field = (tHa: number) => {
    const c = run(
      repeatedDays(2, { ...SUNNY_DRY, maxTempC: 29, minTempC: 16, dewPointC: 14, noonSunWm2: 900 }),
      { dryMatterTHa: tHa, coveredFraction: 1 },
      9,
    );
    return Math.log(dryBasis(0.8) / dryBasis(c.moistureWb[7] as number)) / 8;
  };
  add(
    "field-335",
    "good field days, 3.35 t/ha, 1/h",
    "high-rate carbonate study: 0.272",
    "held out",
    field(3.35),
    0.2,
    0.34,
    true,
  );
  add(
    "field-559",
    "good field days, 5.59 t/ha, 1/h",
    "high-rate carbonate study: 0.217",
    "held out",
    field(5.59),
    0.16,
    0.27,
    true,
  );
  const france = run(
    repeatedDays(2, { ...SUNNY_DRY, minTempC: 11, maxTempC: 24, dewPointC: 10 }),
    { crop: "cool-season-grass", dryMatterTHa: 3.5, coveredFraction: 1 },
    9,
  );
  add(
    "france-day1",
    "typical good first day, spread grass: 80 -> this %",
    "central France, extension: 50 %",
    "held out",
    (france.moistureWb[10] as number) * 100,
    40,
    58,
    true,
  );
  return checks;
}

export function report(checks: readonly Check[]): string {
  return checks
    .map((c) => {
      const ok = c.value >= c.low && c.value <= c.high;
      return `${ok ? "  " : c.reportOnly ? "~ " : "X "}${c.id.padEnd(18)} ${c.value.toFixed(3).padStart(9)}  [${c.low.toFixed(2)}, ${c.high.toFixed(2)}]  ${c.what}`;
    })
    .join("\n");
}
