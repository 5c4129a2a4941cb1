import { runSweepCourse } from "../../model/drying/course.ts";
import type { SwathRequest } from "../../model/drying/request.ts";
import {
  bendToReadings,
  type Draw,
  drawnCourses,
  drawnMoistureAt,
  drawSample,
  parametersOfDraw,
  quantileOfSorted,
  readingSdWb,
  seededRandom,
  streamSeed,
  swathOfDraw,
  type Uncertainty,
  uncertaintyOf,
  type WeatherDraws,
} from "../../model/odds/index.ts";
import { type MoistureMet, moistureRecord } from "../../model/odds/record.ts";
import { widenedMember } from "../../model/odds/widen.ts";
import type { HourlyWeather } from "../../model/weather/hourly.ts";
import { prepareWeather } from "../../model/weather/prepare.ts";
import { inventedSpell, PLACES } from "../support/weather.ts";

/**
 * Synthetic cuts whose truth is drawn from a stated uncertainty: are the bands as wide as they say, what is a reading
 * worth, and does the record tell when the truth is wider than assumed? Invented weather throughout.
 */

const HOUR_MS = 3_600_000;
const HOURS = 96;
/** Cuts that share a spell of weather, to spare time: each has its own truth. */
const CUTS_A_SPELL = 10;
/** Hours after the cut at which bands and truth are compared. */
const COMPARED_H = [3, 6, 9, 20, 24, 28, 32, 44, 48, 52, 56, 68, 72];

const SWATH: SwathRequest = {
  crop: "alfalfa",
  dryMatterTHa: 3.5,
  initialMoistureWb: 0.79,
  conditioning: "roll",
  coveredFraction: 0.6,
  stubbleCm: 8,
  soil: "dry",
};

export interface StudyPlan {
  readonly cuts: number;
  readonly draws: number;
  readonly seed: number;
  /** The truth's spread of rate and moisture over the assumed one; 1 = as assumed. */
  readonly wider: number;
}

interface Spell {
  readonly weather: HourlyWeather;
  readonly cutUtcMs: number;
}

function spellOf(random: () => number, day: number): Spell {
  const start = Date.parse("2026-06-01T05:00:00Z") + day * 24 * HOUR_MS;
  const rainMm = random() < 0.4 ? { [30 + Math.floor(random() * 40)]: 1 + 6 * random() } : {};
  const series = inventedSpell(
    PLACES.southDakota,
    new Date(start).toISOString().replace(".000Z", "Z"),
    HOURS + 12,
    {
      meanTempC: 17 + 10 * random(),
      dewPointC: 8 + 6 * random(),
      windMps: 1 + 3 * random(),
      rainMm,
    },
  );
  const prepared = prepareWeather(series);
  if (!prepared.ok) throw new Error("the invented spell must be usable");
  return { weather: prepared.value.weather, cutUtcMs: start + 10 * HOUR_MS };
}

function truthOf({ weather, cutUtcMs }: Spell, draw: Draw) {
  const swath = swathOfDraw(SWATH, draw);
  return { draw, course: runSweepCourse(weather, swath, cutUtcMs, [], parametersOfDraw(draw)) };
}

function widerBy(uncertainty: Uncertainty, times: number): Uncertainty {
  return {
    ...uncertainty,
    rateLnSd: uncertainty.rateLnSd * times,
    initialMoistureSdWb: uncertainty.initialMoistureSdWb * times,
  };
}

export interface BandStudy {
  /** Share of hours of all cuts whose true moisture lies in the 10-90 % band. */
  readonly inside80: number;
  readonly met: readonly MoistureMet[];
}

/** One forecast, widened; truth is another widened weather with a draw of its own. */
export function bandStudy({ cuts, draws, seed, wider }: StudyPlan): BandStudy {
  const random = seededRandom(seed);
  const assumed = uncertaintyOf(SWATH.crop);
  const truths = drawSample(SWATH, widerBy(assumed, wider), cuts, streamSeed(seed, 77));
  let inside = 0;
  let all = 0;
  const met: MoistureMet[] = [];
  for (let spell = 0; spell * CUTS_A_SPELL < cuts; spell++) {
    const main = spellOf(random, spell % 60);
    const { weather, cutUtcMs } = main;
    const made = Array.from({ length: draws }, (_, i) =>
      widenedMember(weather, weather.startUtcMs, streamSeed(seed + spell, i)),
    );
    const weathers: WeatherDraws = {
      kind: "widened",
      members: 0,
      leftOut: 0,
      of: (i) => made[i] as HourlyWeather,
      text: "",
    };
    const sample = drawSample(SWATH, assumed, draws, streamSeed(seed, 5000 + spell));
    const drawn = drawnCourses(weathers, SWATH, cutUtcMs, [], sample);
    const bands = COMPARED_H.map((h) => {
      const sorted = Float64Array.from(drawn, (one) => drawnMoistureAt(one, cutUtcMs + h * HOUR_MS)).sort();
      return { low: quantileOfSorted(sorted, 0.1), high: quantileOfSorted(sorted, 0.9), sorted };
    });
    for (let k = 0; k < CUTS_A_SPELL && spell * CUTS_A_SPELL + k < cuts; k++) {
      const at = spell * CUTS_A_SPELL + k;
      const air = widenedMember(weather, weather.startUtcMs, streamSeed(seed + 900_000, at));
      const truth = truthOf({ weather: air, cutUtcMs }, truths[at] as Draw);
      const true32 = drawnMoistureAt(truth, cutUtcMs + 28 * HOUR_MS);
      met.push({
        day: `day ${String(at).padStart(5, "0")}`,
        leadH: 38,
        route: "dry-hay",
        membersWb: [...(bands[COMPARED_H.indexOf(28)]?.sorted ?? [])],
        observedWb: true32,
      });
      COMPARED_H.forEach((h, b) => {
        const wb = drawnMoistureAt(truth, cutUtcMs + h * HOUR_MS);
        const band = bands[b] as { low: number; high: number };
        all++;
        if (wb >= band.low && wb <= band.high) inside++;
      });
    }
  }
  return { inside80: inside / all, met };
}

/** What the record would say of one reading a cut, 28 h after it. */
export function recordOf(study: BandStudy, seed: number) {
  const [scores] = moistureRecord(study.met, seed);
  if (!scores) throw new Error("a study has readings");
  return scores;
}

export interface ReadingStudy {
  /** Root mean square of the median course less the truth, from the reading to the cut's 20 %, wet-basis fraction. */
  readonly before: number;
  readonly after: number;
  /** After it where each odd reading was confirmed, as all of them are true here. */
  readonly confirmed: number;
  /** Share of the readings that were asked about. */
  readonly questioned: number;
}

/** In known weather: one oven reading half way from the cut to 20 %, and the error of the rest of that way. */
export function readingStudy({ cuts, draws, seed, wider }: StudyPlan): ReadingStudy {
  const random = seededRandom(streamSeed(seed, 3));
  const assumed = uncertaintyOf(SWATH.crop);
  const truths = drawSample(SWATH, widerBy(assumed, wider), cuts, streamSeed(seed, 78));
  const noise = drawSample(SWATH, { ...assumed, rateLnSd: readingSdWb("oven") }, cuts, streamSeed(seed, 79));
  const sum = { before: 0, after: 0, confirmed: 0, questioned: 0, count: 0 };
  for (let spell = 0; spell * CUTS_A_SPELL < cuts; spell++) {
    const main = spellOf(random, spell % 60);
    const { weather, cutUtcMs } = main;
    const weathers: WeatherDraws = { kind: "known", members: 0, leftOut: 0, of: () => weather, text: "" };
    const sample = drawSample(SWATH, assumed, draws, streamSeed(seed, 6000 + spell));
    const drawn = drawnCourses(weathers, SWATH, cutUtcMs, [], sample);
    const central = runSweepCourse(weather, SWATH, cutUtcMs);
    const dryAt = central.moistureWb.findIndex((wb) => wb <= 0.2);
    const last = dryAt < 0 ? central.count - 1 : dryAt;
    const half = Math.round(last / 2);
    const readingMs = central.startUtcMs + (half + 1) * HOUR_MS;
    const medianAt = (of: typeof drawn, hour: number) =>
      quantileOfSorted(Float64Array.from(of, ({ course }) => course.moistureWb[hour] as number).sort(), 0.5);
    for (let k = 0; k < CUTS_A_SPELL && spell * CUTS_A_SPELL + k < cuts; k++) {
      const at = spell * CUTS_A_SPELL + k;
      const truth = truthOf(main, truths[at] as Draw);
      const error = Math.log((noise[at] as Draw).rateFactor);
      const moistureWb = (truth.course.moistureWb[half] as number) + error;
      const reading = { atUtc: new Date(readingMs).toISOString(), moistureWb, method: "oven" as const };
      const { drawn: bent, used } = bendToReadings(drawn, SWATH, [reading], seed);
      const sure = used ? bent : bendToReadings(drawn, SWATH, [{ ...reading, confirmed: true }], seed).drawn;
      if (!used) sum.questioned++;
      for (let hour = half + 1; hour <= last; hour++) {
        const wb = truth.course.moistureWb[hour] as number;
        sum.before += (medianAt(drawn, hour) - wb) ** 2;
        sum.after += (medianAt(bent, hour) - wb) ** 2;
        sum.confirmed += (medianAt(sure, hour) - wb) ** 2;
        sum.count++;
      }
    }
  }
  const rms = (squares: number) => Math.sqrt(squares / sum.count);
  return {
    before: rms(sum.before),
    after: rms(sum.after),
    confirmed: rms(sum.confirmed),
    questioned: sum.questioned / cuts,
  };
}
