import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { type GridJob, middleSlot } from "../../../model/crew/grid.ts";
import { type BuiltCrew, buildGrid, type CrewPlanRequest, planBuilt } from "../../../model/crew/index.ts";
import type { CrewJobAnswer } from "../../../model/crew/request.ts";
import { gridJobs, rulesOf, toCrewJob } from "../../../model/crew/rules-of.ts";
import { planFaults } from "../../../model/crew/validity.ts";
import { jobsOfField, servedValue } from "../../../model/crew/value.ts";
import { bandOfOp } from "../../../model/crew/windows/band.ts";
import { seededRandom } from "../../../model/odds/random.ts";
import { demoCrew, withInventedMembers } from "../../../web/crew/demo-crew.ts";
import { solverHere } from "../../support/crew/solver-here.ts";
import { inventedSpell, PLACES } from "../../support/weather.ts";

const solver = await solverHere();
const EXAMPLE = new URL("../../../server/examples/crew-plan.json", import.meta.url);

/** The example with afternoons of rain, 2 mm in each of four hours at every site and member, on some of its days. */
function rainedOn(days: readonly number[]): CrewPlanRequest {
  const asked = JSON.parse(readFileSync(EXAMPLE, "utf8"));
  for (const { series } of Object.values<{ series: CrewPlanRequest["sites"][string]["series"] }>(
    asked.sites,
  )) {
    for (const { rainMm } of [series.hours, ...(series.members ?? [])]) {
      for (const day of days) (rainMm as number[]).fill(2, 24 * day + 9, 24 * day + 13);
    }
  }
  return asked;
}

async function planned(days: readonly number[]) {
  const built = buildGrid(rainedOn(days));
  if (!built.ok) throw new Error(built.issues[0]?.message);
  return planBuilt(built.value, { solver, elapsedS: () => 0, brief: true });
}

// Through weather, windows and solver: a day of rain fewer, all else as it is.
test.each([
  [
    [1, 2, 3],
    [1, 3],
  ],
  [[2, 4], [4]],
  [
    [0, 2, 4],
    [0, 4],
  ],
])(
  "rain on days %j, then on %j alone: a dry day more loses nothing beyond the gap",
  { timeout: 120_000 },
  async (wet, dry) => {
    const [before, after] = [await planned(wet), await planned(dry)];
    expect(before.value).toBeGreaterThan(0);
    expect(after.value).toBeGreaterThanOrEqual(before.value - after.gap * after.bound - 1e-6);
  },
);

/** The invented crew in nine invented days, with rain of some hours on about half of them, and one of these days dried. */
function wetWeek(seed: number, dryDay: number | null): CrewPlanRequest {
  const random = seededRandom(seed);
  const rainMm: Record<number, number> = {};
  for (let day = 0; day < 7; day++) {
    const mm = 1 + 5 * random();
    const at = 24 * day + 8 + Math.floor(10 * random());
    const isWet = random() < 0.5;
    if (isWet && day !== dryDay) for (const hour of [at, at + 1, at + 2]) rainMm[hour] = mm;
  }
  const options = { meanTempC: 17 + 3 * random(), dewPointC: 9 + 3 * random(), windMps: 2, rainMm };
  const series = inventedSpell(PLACES.southDakota, "2026-07-01T05:00:00Z", 9 * 24, options);
  return { ...demoCrew(withInventedMembers(series)), horizonDays: 7, timeLimitS: 0 };
}

async function quickly(request: CrewPlanRequest) {
  const built = buildGrid(request);
  if (!built.ok) throw new Error(built.issues[0]?.message);
  return {
    built: built.value,
    answer: await planBuilt(built.value, { solver: null, elapsedS: () => 0, brief: true }),
  };
}

/**
 * A plan made before the day was dried, in the dried weather: the works outside their windows that meet crop below the
 * band's top in four of the five members and inside the band in two at most, and what the fields without such a work bring.
 */
function pastTheirBand(before: BuiltCrew, planned: readonly CrewJobAnswer[], after: BuiltCrew) {
  const { grid, request } = before;
  const jobs = gridJobs(before, planned);
  const outside = new Set(planFaults(rulesOf(after), planned.map(toCrewJob)).map(({ fieldId }) => fieldId));
  const utcMs = (slot: number) => grid.startUtcMs + slot * grid.slotMs;
  const tooDry: string[] = [];
  let others = 0;
  grid.fields.forEach((field, f) => {
    const own = jobsOfField(field, f, jobs);
    const asked = request.fields[f];
    const mow = own?.[0];
    if (own === null || mow === undefined || asked === undefined) return;
    const opOf = (job: GridJob) => field.tasks[job.task]?.op ?? "mow";
    const passes = own.flatMap((job) => {
      const kind = opOf(job);
      if (kind !== "ted" && kind !== "rake") return [];
      return [{ kind, atUtcMs: (utcMs(job.start) + utcMs(job.end)) / 2, coveredFraction: null }];
    });
    const past = own.slice(1).filter((job) => {
      const band = bandOfOp(opOf(job), asked)?.bandWb;
      if (band === undefined || !outside.has(field.id)) return false;
      const made = passes.filter(({ atUtcMs }) => atUtcMs < utcMs(job.start));
      const courses = (after.members[f] ?? []).map((member) =>
        member.course(utcMs(middleSlot(mow.start, mow.end)), made),
      );
      const slots = Array.from({ length: job.end - job.start }, (_, i) => job.start + i);
      return slots.some((slot) => {
        const ends = courses.map(({ moistureWb, startUtcMs }) => {
          const hour = Math.round((utcMs(slot) - startUtcMs) / 3_600_000);
          return [moistureWb[hour - 1] ?? 1, moistureWb[hour] ?? 1];
        });
        const ready = ends.filter((wb) => Math.max(...wb) <= band[1]);
        return ready.length >= 4 && ready.filter((wb) => Math.min(...wb) >= band[0]).length <= 2;
      });
    });
    tooDry.push(...past.map((job) => `${field.id}: ${opOf(job)}`));
    if (past.length === 0) others += servedValue(field, own);
  });
  return { tooDry, others };
}

// Crop that dries a day sooner may be past the band of a work by the hour at which somebody can do it: nothing is baled or
// chopped that is too dry for it. That alone may cost a plan something, and no more than the fields whose crop is past it.
test.each([
  [1, 5, false],
  [2, 3, true],
  [3, 2, false],
  [6, 5, false],
  [11, 5, true],
  [13, 1, true],
])(
  "wet week %i with day %i dried: nothing is lost, but by crop that has got drier than the band of a work",
  { timeout: 120_000 },
  async (seed, day, falls) => {
    const [wet, dry] = [await quickly(wetWeek(seed, null)), await quickly(wetWeek(seed, day))];
    const slack = dry.answer.gap * dry.answer.bound + 1e-6;
    const { tooDry, others } = pastTheirBand(wet.built, wet.answer.jobs, dry.built);
    expect(wet.answer.value).toBeGreaterThan(0);
    const hasFallen = dry.answer.value < wet.answer.value - slack;
    expect(hasFallen).toBe(falls);
    if (hasFallen) expect(tooDry).not.toEqual([]);
    expect(dry.answer.value).toBeGreaterThanOrEqual(others - slack);
  },
);
