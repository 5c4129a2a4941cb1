import { type Grid, type GridField, type GridResource, stretchEnds } from "../../../model/crew/grid.ts";
import { CREW_OPS, type CrewOp } from "../../../model/crew/keys.ts";
import { seededRandom } from "../../../model/odds/random.ts";

/** Invented tasks of a crew, for tests of the solver apart from the weather. */

export interface GridMake {
  readonly seed: number;
  readonly fields: number;
  readonly days: number;
  readonly slotsADay: number;
  readonly ops: readonly CrewOp[];
  /** Other works of some fields; absent = all have the same. */
  readonly opsOf?: (field: number) => readonly CrewOp[];
  readonly machines: Partial<Record<CrewOp, number>>;
  readonly people: number;
  readonly sites: number;
  readonly travelSlots: number;
  readonly longest: number;
  /** Days that nothing can be done in the rain, from 0. */
  readonly rainDays?: readonly number[];
  /** Slots from mowing to ready, least and most. */
  readonly dries?: readonly [number, number];
  readonly lagSlots?: number;
}

export function inventedGrid(make: GridMake): Grid {
  const random = seededRandom(make.seed);
  const between = (lo: number, hi: number) => lo + Math.floor(random() * (hi - lo + 1));
  const day = 24;
  const count = make.days * day;
  const rainDays = make.rainDays ?? [];
  const atWork = Array.from({ length: count }, (_, t) => t % day >= 7 && t % day < 7 + make.slotsADay);
  const dry = atWork.map((work, t) => work && !rainDays.includes(Math.floor(t / day)));
  const machines: GridResource[] = CREW_OPS.flatMap((op) =>
    Array.from({ length: make.machines[op] ?? 0 }, (_, i) => ({
      id: `${op}${i}`,
      op,
      freeUntil: stretchEnds(atWork),
    })),
  );
  const people = Array.from({ length: make.people }, (_, i) => ({
    id: `p${i}`,
    op: null,
    freeUntil: stretchEnds(atWork),
  }));
  const firstRainAfter = (t: number) => {
    const found = rainDays.map((one) => one * day).filter((start) => start > t);
    return found.length > 0 ? Math.min(...found) : count;
  };
  const fields = Array.from({ length: make.fields }, (_, f): GridField => {
    const [least, most] = make.dries ?? [20, 34];
    const ops = make.opsOf?.(f) ?? make.ops;
    const needs = between(least, most);
    const hazard = new Float64Array(count + 1);
    for (let t = 1; t <= count; t++) hazard[t] = (hazard[t - 1] as number) + 0.002 + 0.001 * (f % 3);
    const gather = ops.findIndex((op) => op === "bale" || op === "chop");
    const mowGain = new Float64Array(count).fill(Number.NaN);
    const windows = ops.map((op) => {
      if (op === "mow" || op === "wrap" || op === "haul") return { ready: null, until: null };
      const ready = new Int32Array(count).fill(-1);
      const until = new Int32Array(count).fill(-1);
      return { ready, until };
    });
    for (let q = 0; q < count; q++) {
      const until = Math.min(firstRainAfter(q), q + needs + 30);
      const ready = q + needs;
      if (until <= ready || !dry[q]) continue;
      mowGain[q] = 0.95 + (hazard[ready] as number);
      ops.forEach((op, i) => {
        const window = windows[i];
        if (window?.ready == null || window.until == null) return;
        window.ready[q] = op === "ted" ? q + 3 : op === "rake" ? ready - 4 : ready;
        window.until[q] = op === "ted" ? q + needs - 2 : until;
      });
    }
    const tasks = ops.map((op, i) => {
      const slots = between(1, make.longest);
      return {
        op,
        slotsOf: Int32Array.from(machines, (machine) => (machine.op === op ? slots : 0)),
        openUntil: stretchEnds(dry),
        ready: windows[i]?.ready ?? null,
        until: windows[i]?.until ?? null,
        lagSlots: op === "wrap" ? (make.lagSlots ?? 12) : null,
        fixed: null,
        before: null,
      };
    });
    return {
      id: `f${f}`,
      site: f % make.sites,
      worth: 500 + Math.floor(random() * 2000),
      tasks,
      gather,
      mowGain,
      gatherCost: hazard.slice(0, count),
      lateCost: new Float64Array(count + 1),
      moveCost: 0,
    };
  });
  const travelSlots = Int32Array.from({ length: make.sites * make.sites }, (_, i) =>
    Math.floor(i / make.sites) === i % make.sites ? 0 : make.travelSlots,
  );
  return {
    startUtcMs: Date.UTC(2026, 5, 1),
    slotMs: 3_600_000,
    count,
    nowSlot: 0,
    siteIds: Array.from({ length: make.sites }, (_, i) => `s${i}`),
    travelSlots,
    fields,
    machines,
    people,
  };
}

/** Twelve fields, five works, seven days with two of rain: two mowers, a tedder, a rake, two balers, a wrapper, four people. */
export function wholeWeek(seed: number, fields = 12): Grid {
  return inventedGrid({
    seed,
    fields,
    days: 7,
    slotsADay: 13,
    ops: ["mow", "ted", "rake", "bale", "wrap"],
    machines: { mow: 2, ted: 1, rake: 1, bale: 2, wrap: 1 },
    people: 4,
    sites: fields,
    travelSlots: 0,
    longest: 3,
    rainDays: [3],
  });
}
