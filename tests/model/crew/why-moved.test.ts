import { expect, test } from "vitest";
import type { CrewPlanRequest } from "../../../model/crew/index.ts";
import { crewField, crewRequest, plannedBriefly } from "../../support/crew/requests.ts";

const planned = (over: Partial<CrewPlanRequest>) => plannedBriefly(crewRequest({ timeLimitS: 0, ...over }));

const H = 3_600_000;
const utc = (ms: number) => new Date(ms).toISOString().replace(".000Z", "Z");
const fields = [crewField("creek", { name: "Creek field", customer: "First customer" })];
const first = await planned({ fields });
const baling = first.jobs.find(({ op }) => op === "bale");
const balingMs = Date.parse(baling?.startUtc ?? "");
const { machines } = crewRequest();

test("a mowing that moves because the baler is away later says so", async () => {
  const off = { fromUtc: utc(balingMs - 40 * H), toUtc: utc(balingMs + 30 * H) };
  const again = await planned({
    fields,
    machines: machines.map((one) => (one.kind === "baler" ? { ...one, offUtc: [off] } : one)),
    previous: first,
  });
  const why = (op: string) => again.changes.find((change) => change.op === op);
  expect(why("mow")?.why).toMatch(
    /^the baler is away when its crop was to be baled, \w{3} \d+ \w{3} \d\d:\d\d to \w{3} \d+ \w{3} \d\d:\d\d$/,
  );
  expect(why("rake")?.why).toBe(why("mow")?.why);
  expect(why("bale")?.why).toBe("the baler is off at that hour");
  const told = again.messages[0]?.text ?? "";
  expect(told).toContain("because the baler is not there when its crop was to be baled.");
  expect(told).toContain("because the baler is not there then.");
});

const OPS = { "mower-1": "mow", "tedder-1": "ted", "baler-1": "bale" } as const;
const by = (machineId: keyof typeof OPS, startUtc: string, endUtc: string) => ({
  fieldId: "creek",
  op: OPS[machineId],
  machineId,
  personId: "a",
  startUtc,
  endUtc,
});

test("a window that closes after a mowing that moved earlier names that mowing", async () => {
  const off = { fromUtc: "2026-07-05T05:00:00Z", toUtc: "2026-07-09T05:00:00Z" };
  const again = await planned({
    fields: [crewField("creek", { name: "Creek field", ops: ["mow", "ted", "bale"] })],
    machines: machines.map((one) => (one.kind === "mower" ? { ...one, offUtc: [off] } : one)),
    previous: {
      jobs: [
        by("mower-1", "2026-07-05T18:00:00Z", "2026-07-05T20:00:00Z"),
        by("tedder-1", "2026-07-06T14:00:00Z", "2026-07-06T16:00:00Z"),
        by("baler-1", "2026-07-07T18:00:00Z", "2026-07-07T20:00:00Z"),
      ],
    },
  });
  expect(again.changes.map(({ why }) => why)).toEqual([
    "the mower is off at that hour",
    "after mowing on Wed 1 Jul 10:00 its window closes on Thu 2 Jul 09:00, when the crop gets too dry",
    "after mowing on Wed 1 Jul 10:00 its window closes on Sun 5 Jul 02:00, when dew falls, it gets dark and the crop gets too wet",
  ]);
});

test("of crop that is ready later than promised it is said why that hour is not taken", async () => {
  const slow = machines.map((one) => (one.kind === "baler" ? { ...one, haPerH: 1.6 } : one));
  const again = await planned({
    fields: [crewField("creek", { name: "Creek field", ops: ["mow", "bale"] })],
    machines: slow,
    nowUtc: "2026-07-04T22:00:00Z",
    previous: {
      jobs: [
        by("mower-1", "2026-07-04T14:00:00Z", "2026-07-04T16:00:00Z"),
        by("baler-1", "2026-07-05T18:00:00Z", "2026-07-05T23:00:00Z"),
      ],
    },
  });
  expect(again.changes.map(({ text }) => text)).toEqual([
    "Creek field: baling moves from Sun 5 Jul 13:00 to Mon 6 Jul 12:00 because the crop is not ready for it before Sun 5 Jul 19:00, and Sun 5 Jul 19:00 to 22:00 is too short for the 5 h it takes.",
  ]);
});
