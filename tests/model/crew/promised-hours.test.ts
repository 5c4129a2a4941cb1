import { expect, test } from "vitest";
import {
  buildGrid,
  type CrewPlanAnswer,
  type CrewPlanRequest,
  planBuilt,
} from "../../../model/crew/index.ts";
import { withPromisedHours } from "../../../model/crew/promised-hours.ts";
import { gridJobs } from "../../../model/crew/rules-of.ts";
import { differingCrew } from "../../support/crew/differing.ts";
import { rainedOn } from "../../support/crew/requests.ts";

function builtOf(request: CrewPlanRequest) {
  const built = buildGrid(request);
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  return built.value;
}

function planOf(request: CrewPlanRequest): Promise<CrewPlanAnswer> {
  return planBuilt(builtOf(request), { solver: null, elapsedS: () => 0 });
}

const expectedOf = ({ worth }: CrewPlanAnswer) => worth?.expected ?? 0;

// As soon as a work is done windows are read from when it was done, and no more from its usual hour.
test.each([
  [300, "2026-07-01T17:10:00Z"],
  [309, "2026-07-01T17:10:00Z"],
  [313, "2026-07-02T17:10:00Z"],
])(
  "crew of chance %i, planned again at %s with nothing new but the clock: no promise is broken",
  async (seed, nowUtc) => {
    const asked = differingCrew(seed);
    const horizonDays = asked.horizonDays ?? 5;
    const before = await planOf(asked);
    expect(before.jobs.length).toBeGreaterThan(0);
    // The same last day: a day more may bring a field in that was left.
    const passed = Math.floor((Date.parse(nowUtc) - Date.parse(before.nowUtc)) / 86_400_000);
    const again = await planOf({ ...asked, previous: before, nowUtc, horizonDays: horizonDays - passed });
    expect(expectedOf(again)).toBeGreaterThanOrEqual(expectedOf(before) - 1e-6);
    for (const change of again.changes) expect(change.toUtc).not.toBeNull();
  },
);

test("of promised hours that no window has those stay a choice at which the replay finds the crop dry, and it is said", async () => {
  const asked = differingCrew(300);
  const before = await planOf(asked);
  const again = await planOf({ ...asked, previous: before, nowUtc: "2026-07-01T17:10:00Z" });
  const moved = again.changes.filter(({ fieldId }) => fieldId === "c");
  expect(moved).toEqual([]);
  expect(again.jobs.filter(({ fieldId }) => fieldId === "c")).toEqual(
    before.jobs.filter(({ fieldId }) => fieldId === "c"),
  );
  expect(again.windowsReread).toContain("c");
  expect(again.assumptions.join(" ")).toContain("c: the promised hours lie outside the windows");
});

test("promised hours in the rain are no choice", async () => {
  const asked = differingCrew(300);
  const before = await planOf(asked);
  const nowUtc = "2026-07-01T17:10:00Z";
  const baling = before.jobs.find(({ fieldId, op }) => fieldId === "c" && op === "bale");
  const { startUtc = "" } = baling ?? {};
  const [site] = Object.values(asked.sites);
  const first = Date.parse(site?.series.hours.startUtc[0] ?? "");
  const hour = (Date.parse(startUtc) - first) / 3_600_000;
  const sites = rainedOn(asked.sites, [hour - 1, hour + 2], 3);
  const built = builtOf({ ...asked, sites, previous: before, nowUtc });
  const f = built.grid.fields.findIndex(({ id }) => id === "c");
  const promised = gridJobs(built, before.jobs);
  expect(withPromisedHours(built, promised, [f])).toBeNull();
  expect(withPromisedHours(built, promised, [f], { share: 0.7, tooDry: true })).toBeNull();
});
