import { saturationVapourPressureKPa } from "../model/weather/air.ts";
import { HOUR_MS, startOfLocalDay } from "../model/weather/clock.ts";
import { utcLabel } from "../model/weather/labels.ts";
import { clearSkyHours, cloudTransmission } from "../model/weather/radiation.ts";
import type { Site, WeatherSeries } from "../model/weather/series.ts";
import { seededRandom, wander } from "./random.ts";
import type { Spell } from "./spells.ts";

/** Invents ten days of hourly weather that hang together: cloud dims the sun, rain needs cloud, dew needs a clear night. */

export interface Sample {
  readonly id: string;
  readonly title: string;
  readonly series: WeatherSeries;
}

/** The demonstration farm: no real place of that name, people or fields. */
export const DEMO_SITE: Site = {
  latitude: 44.3,
  longitude: -98.2,
  elevationM: 400,
  timeZone: "America/Chicago",
};

const DAYS = 10;
const HOURS = DAYS * 24;
const COLDEST_HOUR = 5.5;
const WARMEST_HOUR = 15.5;

const round = (value: number, digits: number) => Number(value.toFixed(digits));
const clamp = (value: number, low: number, high: number) => Math.min(high, Math.max(low, value));

/** 0 in the night, 1 around midday, with soft shoulders; `hour` is the local hour. */
function dayShare(hour: number): number {
  return clamp(0.5 - 0.62 * Math.cos((2 * Math.PI * (hour - 2)) / 24), 0, 1);
}

/** A value for each day, read between the middles of the days so that it never jumps at midnight. */
function overDays(values: readonly number[], hourOfSpell: number): number {
  const at = clamp(hourOfSpell / 24 - 0.5, 0, DAYS - 1);
  const before = Math.floor(at);
  const after = Math.min(DAYS - 1, before + 1);
  const low = values[before] as number;
  return low + ((values[after] as number) - low) * (at - before);
}

function rainOfHours(spell: Spell): Float64Array {
  const rain = new Float64Array(HOURS);
  for (const shower of spell.showers) {
    shower.mm.forEach((mm, k) => {
      rain[shower.day * 24 + shower.hour + k] = mm;
    });
  }
  return rain;
}

/** How near an hour is to rain: 1 in it, falling over three hours on either side. */
function nearRain(rain: Float64Array, hour: number): number {
  let near = 0;
  for (let k = -3; k <= 3; k++) if ((rain[hour + k] ?? 0) > 0) near = Math.max(near, 1 - Math.abs(k) / 4);
  return near;
}

function cloudOfHours(spell: Spell, rain: Float64Array, random: () => number): Float64Array {
  const wandering = wander(random, 4);
  return Float64Array.from({ length: HOURS }, (_, i) => {
    const day = dayShare((i % 24) + 0.5);
    const base = spell.nightCloudPct + (overDays(spell.dayCloudPct, i + 0.5) - spell.nightCloudPct) * day;
    const near = nearRain(rain, i);
    const cloud = base + spell.cloudSpreadPct * wandering();
    return Math.round(clamp(near > 0 ? Math.max(cloud, 70 + 30 * near) : cloud, 0, 100));
  });
}

/** Temperature falls least under cloud: half as far under a full cover as under a clear sky. */
function lowestOfNight(spell: Spell, cloud: Float64Array, day: number): number {
  let sum = 0;
  const from = day * 24 - 3;
  for (let i = from; i < from + 9; i++) sum += cloud[clamp(i, 0, HOURS - 1)] as number;
  const before = spell.maxC[clamp(day - 1, 0, DAYS - 1)] as number;
  return before - spell.nightFallC * (1 - (0.5 * sum) / 900);
}

function tempOfHours(
  spell: Spell,
  cloud: Float64Array,
  rain: Float64Array,
  random: () => number,
): Float64Array {
  const wandering = wander(random, 6);
  const half = (from: number, to: number, share: number) =>
    from + (to - from) * (0.5 - 0.5 * Math.cos(Math.PI * share));
  return Float64Array.from({ length: HOURS }, (_, i) => {
    const day = Math.floor(i / 24);
    const hour = (i % 24) + 0.5;
    const rise = WARMEST_HOUR - COLDEST_HOUR;
    let base: number;
    if (hour < COLDEST_HOUR) {
      const share = (hour + 24 - WARMEST_HOUR) / (24 - rise);
      base = half(spell.maxC[Math.max(0, day - 1)] as number, lowestOfNight(spell, cloud, day), share);
    } else if (hour < WARMEST_HOUR) {
      const share = (hour - COLDEST_HOUR) / rise;
      base = half(lowestOfNight(spell, cloud, day), spell.maxC[day] as number, share);
    } else {
      const share = (hour - WARMEST_HOUR) / (24 - rise);
      base = half(spell.maxC[day] as number, lowestOfNight(spell, cloud, day + 1), share);
    }
    return base + 0.35 * wandering() - 3.5 * nearRain(rain, i);
  });
}

function humidityOfHours(
  spell: Spell,
  temp: Float64Array,
  rain: Float64Array,
  random: () => number,
): Float64Array {
  const wandering = wander(random, 12);
  return Float64Array.from({ length: HOURS }, (_, i) => {
    const tempC = temp[i] as number;
    const wanted = overDays(spell.dewC, i + 0.5) + 0.6 * wandering() + 2 * nearRain(rain, i);
    // Air that cools to its dew point stays a little short of saturation at 2 m, because the ground takes the dew.
    const shortC = (rain[i] as number) > 0 ? 0.6 : 0.35;
    const dewC = Math.min(wanted, tempC - shortC);
    return (100 * saturationVapourPressureKPa(dewC)) / saturationVapourPressureKPa(tempC);
  });
}

function windOfHours(spell: Spell, rain: Float64Array, random: () => number): Float64Array {
  const wandering = wander(random, 5);
  return Float64Array.from({ length: HOURS }, (_, i) => {
    const day = dayShare((i % 24) - 1.5);
    const base = spell.nightWindMps + (spell.dayWindMps - spell.nightWindMps) * day;
    return Math.max(0.2, base * (1 + 0.18 * wandering()) + 1.5 * nearRain(rain, i));
  });
}

/** The spell as a sample: the same seed, the same numbers. */
export function inventSample(spell: Spell): Sample {
  const random = seededRandom(spell.seed);
  const startUtcMs = startOfLocalDay(DEMO_SITE.timeZone, spell.firstDay);
  const rain = rainOfHours(spell);
  const cloud = cloudOfHours(spell, rain, random);
  const temp = tempOfHours(spell, cloud, rain, random);
  const humidity = humidityOfHours(spell, temp, rain, random);
  const wind = windOfHours(spell, rain, random);
  const { clearSkyWm2 } = clearSkyHours(startUtcMs, HOURS, DEMO_SITE.latitude, DEMO_SITE.longitude);
  const dimming = wander(random, 2);
  const solar = Array.from(clearSkyWm2, (clear, i) => {
    const through = cloudTransmission((cloud[i] as number) / 100) * (1 + 0.03 * dimming());
    return Math.floor(clear * clamp(through, 0.1, 0.995));
  });
  const pressing = wander(random, 90);
  return {
    id: spell.id,
    title: spell.title,
    series: {
      site: DEMO_SITE,
      windHeightM: 10,
      origin: "sample",
      provider: null,
      model: null,
      issuedUtc: null,
      fetchedUtc: null,
      nativeStepHours: 1,
      attribution: [{ text: "Invented weather of the demonstration farm", url: "" }],
      hours: {
        startUtc: Array.from({ length: HOURS }, (_, i) => utcLabel(startUtcMs + i * HOUR_MS)),
        airTempC: Array.from(temp, (value) => round(value, 1)),
        relHumidityPct: Array.from(humidity, (value) => Math.round(value)),
        windSpeedMps: Array.from(wind, (value) => round(value, 1)),
        solarWm2: solar,
        rainMm: Array.from(rain),
        cloudPct: Array.from(cloud),
        pressureHpa: Array.from({ length: HOURS }, () => round(spell.pressureHpa + 2.5 * pressing(), 1)),
      },
      marks: {},
    },
  };
}
