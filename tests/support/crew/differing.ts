import { readFileSync } from "node:fs";
import type { CrewFieldRequest, CrewPlanRequest } from "../../../model/crew/index.ts";
import { seededRandom } from "../../../model/odds/random.ts";

const EXAMPLE = new URL("../../../server/examples/crew-plan.json", import.meta.url);
const WORKS = [
  ["mow", "ted", "rake", "bale"],
  ["mow", "rake", "bale"],
  ["mow", "ted", "rake", "bale", "wrap"],
] as const;

/** A crew of chance among members that differ in damp, warmth and the hour of the rain, so that windows are read again; invented. */
export function differingCrew(seed: number): CrewPlanRequest {
  const asked: CrewPlanRequest = JSON.parse(readFileSync(EXAMPLE, "utf8"));
  const random = seededRandom(seed * 31 + 7);
  const pick = (least: number, most: number) => least + Math.floor(random() * (most - least + 1));
  const clock = (h: number) => `${String(h).padStart(2, "0")}:00`;
  const sites = Object.entries(asked.sites).map(([id, site]) => {
    const spells = Array.from({ length: pick(0, 2) }, () => ({
      from: pick(20, 110),
      hours: pick(1, 4),
      mm: 1 + random() * 3,
    }));
    const members = site.series.members?.map((member) => {
      const [damperPct, warmerC, later] = [(random() - 0.2) * 26, (random() - 0.5) * 5, pick(-6, 6)];
      const wet = (h: number) =>
        spells.find(({ from, hours }) => h >= from + later && h < from + later + hours);
      return {
        ...member,
        airTempC: (member.airTempC ?? []).map((temp) => (temp ?? 0) + warmerC),
        relHumidityPct: (member.relHumidityPct ?? []).map((rh, h) =>
          wet(h) ? 96 : Math.max(20, Math.min(100, (rh ?? 0) + damperPct)),
        ),
        rainMm: (member.rainMm ?? []).map((_, h) => wet(h)?.mm ?? 0),
      };
    });
    return [id, { ...site, series: { ...site.series, members } }] as const;
  });
  const fields = ["a", "b", "c", "d", "e"].slice(0, pick(2, 5)).map((id): CrewFieldRequest => {
    const { dueUtc: _, ...field } = asked.fields[pick(0, 2)] as CrewFieldRequest;
    const ops = WORKS[pick(0, 2)] ?? WORKS[0];
    const areaHa = pick(3, 14);
    const route = ops.includes("wrap" as never) ? "wrapped-bales" : "dry-hay";
    return { ...field, id, name: id, areaHa, ops: [...ops], route };
  });
  const people = ["p", "q"]
    .slice(0, pick(1, 2))
    .map((id) => ({ id, from: clock(pick(6, 9)), to: clock(pick(16, 20)) }));
  const horizonDays = pick(3, 6);
  const readyShare = [0.75, 0.8][pick(0, 1)];
  return {
    ...asked,
    sites: Object.fromEntries(sites) as CrewPlanRequest["sites"],
    fields,
    machines: [...asked.machines, { id: "wrapper-1", kind: "wrapper" }],
    people,
    timeLimitS: 0,
    horizonDays,
    ...(readyShare === undefined ? {} : { readyShare }),
  };
}
