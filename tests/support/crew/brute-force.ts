import type { Grid, GridField } from "../../../model/crew/grid.ts";

/** The best value of a tiny task by trying every start, machine and person of every field. Shares no code with the plan. */
export function bruteForce(grid: Grid): number {
  const busy: { who: string; from: number; to: number; site: number }[] = [];
  const sites = grid.siteIds.length;
  const can = (who: string, freeUntil: Int32Array, from: number, to: number, site: number) => {
    for (let t = from; t < to; t++) if ((freeUntil[t] ?? 0) <= t) return false;
    return busy.every((job) => {
      if (job.who !== who) return true;
      const drive = grid.travelSlots[job.site * sites + site] ?? 0;
      return job.to + drive <= from || to + drive <= job.from;
    });
  };

  const best = (f: number): number => {
    const field = grid.fields[f];
    if (field === undefined) return 0;
    return Math.max(best(f + 1), ...waysOf(field).map((way) => serve(f, field, way, 0, [])));
  };

  /** Places in the lists by mowing hour, of which there may be several one after the other. */
  const waysOf = ({ mowGain, gatherCost }: GridField) =>
    Array.from({ length: mowGain.length / gatherCost.length }, (_, i) => i * gatherCost.length);

  const serve = (
    f: number,
    field: GridField,
    way: number,
    i: number,
    spans: { from: number; to: number }[],
  ): number => {
    const task = field.tasks[i];
    const mow = spans[0];
    const at = (span: { from: number; to: number }) =>
      way + span.from + Math.floor((span.to - span.from) / 2);
    if (task === undefined) {
      if (mow === undefined) return Number.NEGATIVE_INFINITY;
      const gather = spans[field.gather];
      const kept = (field.mowGain[at(mow)] ?? 0) - (gather ? (field.gatherCost[gather.from] ?? 0) : 0);
      return field.worth * kept + best(f + 1);
    }
    let most = Number.NEGATIVE_INFINITY;
    const first = spans.at(-1)?.to ?? 0;
    for (let from = first; from < grid.count; from++) {
      const before = spans.at(-1);
      if (task.lagSlots !== null && before !== undefined && from > before.to + task.lagSlots) break;
      grid.machines.forEach((machine, k) => {
        const slots = task.slotsOf[k] ?? 0;
        const to = from + slots;
        if (slots === 0 || to > grid.count) return;
        for (let t = from; t < to; t++) if ((task.openUntil[t] ?? 0) <= t) return;
        if (mow !== undefined && task.ready !== null && task.until !== null) {
          const ready = task.ready[at(mow)] ?? -1;
          if (ready < 0 || from < ready || to > (task.until[at(mow)] ?? -1)) return;
        }
        if (mow === undefined && !Number.isFinite(field.mowGain[at({ from, to })])) return;
        // What a machine takes along is where it is.
        const team = [machine, ...(machine.along ?? []).flatMap((one) => grid.machines[one] ?? [])];
        if (!team.every(({ id, freeUntil }) => can(id, freeUntil, from, to, field.site))) return;
        for (const person of grid.people) {
          if (!can(person.id, person.freeUntil, from, to, field.site)) continue;
          for (const { id } of [...team, person]) busy.push({ who: id, from, to, site: field.site });
          most = Math.max(most, serve(f, field, way, i + 1, [...spans, { from, to }]));
          busy.length -= team.length + 1;
        }
      });
    }
    return most;
  };
  return best(0);
}
