import { expect, test, vi } from "vitest";
import type { CrewPlanAnswer, CrewPlanRequest } from "../../../model/crew/index.ts";
import { WIDENED_TEXT } from "../../../model/odds/index.ts";
import type { WeatherSeries } from "../../../model/weather/index.ts";
import { check } from "../../../server/check.ts";
import { runCli } from "../../../server/run-cli.ts";
import { crewPlanAnswer, crewPlanRequest } from "../../../server/schemas/crew-plan.ts";
import { theModel } from "../../../server/the-model.ts";
import { fakeApp, post } from "../../support/app.ts";
import { fieldOf, readCalendar, textOf } from "../../support/crew/read-calendar.ts";
import { crewField, crewRequest, FROM_UTC, spellWithMembers } from "../../support/crew/requests.ts";

const app = fakeApp({ model: theModel });
// Plans are searched for seconds by themselves; a busy machine takes its time.
vi.setConfig({ testTimeout: 90_000 });
const HOUR_MS = 3_600_000;

async function planned(request: CrewPlanRequest): Promise<CrewPlanAnswer> {
  const response = await post(app, "/api/crew-plan", request);
  const body = await response.json();
  expect([response.status, body.message]).toEqual([200, undefined]);
  return crewPlanAnswer.parse(body);
}

async function refused(over: Partial<CrewPlanRequest>) {
  const response = await post(app, "/api/crew-plan", crewRequest(over));
  expect(response.status).toBe(400);
  const body = (await response.json()) as { issues: { path: string; message: string }[] };
  return body.issues.map(({ path, message }) => `${path} ${message}`).join("\n");
}

test("two fields, weather that is known: whole slots, no chance told, value under the bound; the command line answers alike", async () => {
  // Long enough that the search ends by itself: what the clock cuts off is not the same twice.
  const request = crewRequest({ timeLimitS: 60 });
  const answer = await planned(request);
  expect(answer.method).toBe("step-milp");
  expect(answer.left).toEqual([]);
  expect(answer.jobs).toHaveLength(8);
  expect(
    answer.jobs.every(({ startUtc, endUtc }) => (Date.parse(endUtc) - Date.parse(startUtc)) % HOUR_MS === 0),
  ).toBe(true);
  const mow = answer.jobs.find(({ op }) => op === "mow");
  expect(Date.parse(mow?.endUtc ?? "") - Date.parse(mow?.startUtc ?? "")).toBe(2 * HOUR_MS);
  expect(answer.value).toBeLessThanOrEqual(2 * 8 * 400);
  expect(answer.value).toBeLessThanOrEqual(answer.bound);
  expect(answer.gap).toBeLessThan(0.01);
  expect(answer.replay.map(({ chanceDry }) => chanceDry)).toEqual([null, null]);
  expect([answer.counts.members, answer.worth]).toEqual([0, null]);
  expect([answer.revision, answer.changes, answer.timeZone]).toEqual([0, [], "America/Chicago"]);
  const input = new TextEncoder().encode(JSON.stringify(request));
  const cli = await runCli(["crew-plan"], async () => input, theModel);
  expect(JSON.parse(cli.stdout)).toEqual(answer);
});

test("one forecast alone is widened, and says so", async () => {
  const series: WeatherSeries = { ...spellWithMembers(5, 0), origin: "forecast" };
  const request = crewRequest({ sites: { s1: { series } }, fields: [crewField("creek")], timeLimitS: 1 });
  const answer = await planned({ ...request, readyShare: 0.5 });
  expect(answer.counts.members).toBe(20);
  expect(answer.assumptions).toContain(WIDENED_TEXT);
  expect(answer.replay[0]?.chanceDry).toBeGreaterThan(0);
  expect(answer.replay[0]?.lossPct?.p90).toBeGreaterThan(answer.replay[0]?.lossPct?.p10 as number);
});

test("members give chances, what helps, and plans side by side; every wrapping follows its baling within 12 hours", async () => {
  const answer = await planned(
    crewRequest({
      sites: { s1: { series: spellWithMembers(6, 10, 3) } },
      fields: [
        crewField("creek"),
        crewField("hill", {
          route: "wrapped-bales",
          ops: ["mow", "rake", "bale", "wrap"],
          haPerH: { mow: 8, rake: 8, bale: 8 },
        }),
      ],
      machines: [...crewRequest().machines, { id: "wrapper-1", kind: "wrapper", haPerH: 4 }],
      compare: true,
      timeLimitS: 3,
    }),
  );
  expect(answer.left).toEqual([]);
  for (const { chanceDry, expectedLossPct } of answer.replay) {
    expect(chanceDry).toBeGreaterThanOrEqual(0);
    expect(chanceDry).toBeLessThanOrEqual(1);
    expect(expectedLossPct).toBeGreaterThan(3);
  }
  expect(answer.compared?.map(({ plan }) => plan)).toEqual(["best", "robust"]);
  expect(answer.worth?.expected).toBeLessThanOrEqual(answer.value);
  const bale = answer.jobs.find(({ fieldId, op }) => fieldId === "hill" && op === "bale");
  const wrap = answer.jobs.find(({ op }) => op === "wrap");
  const lagH = (Date.parse(wrap?.startUtc ?? "") - Date.parse(bale?.endUtc ?? "")) / HOUR_MS;
  expect(lagH).toBeGreaterThanOrEqual(0);
  expect(lagH).toBeLessThanOrEqual(12);
});

test("a wish list that cannot be served: most value first, the rest named with a reason", async () => {
  const fields = [900, 100, 500, 200].map((valuePerHa, i) => crewField(`f${i}`, { valuePerHa, areaHa: 24 }));
  const answer = await planned(
    crewRequest({ sites: { s1: { series: spellWithMembers(4, 0, 3) } }, fields, timeLimitS: 2 }),
  );
  const left = answer.left.map(({ fieldId }) => fieldId);
  expect(left.length).toBeGreaterThan(0);
  expect(left).not.toContain("f0");
  expect(answer.left.every(({ why }) => why.length > 10)).toBe(true);
  expect(answer.jobs.length).toBe((4 - left.length) * 4);
});

test("planned again when the baler is away: what is done stays, visits move with a reason, and the calendar follows", async () => {
  const request = crewRequest();
  const first = await planned(request);
  const baling = first.jobs.find(({ fieldId, op }) => fieldId === "creek" && op === "bale");
  const mowing = first.jobs.find(({ fieldId, op }) => fieldId === "creek" && op === "mow");
  const from = Date.parse(baling?.startUtc ?? "");
  const utc = (ms: number) => new Date(ms).toISOString().replace(".000Z", "Z");
  const machines = request.machines.map((machine) =>
    machine.kind === "baler"
      ? { ...machine, offUtc: [{ fromUtc: utc(from - HOUR_MS), toUtc: utc(from + HOUR_MS) }] }
      : machine,
  );
  const nowUtc = utc(Date.parse(mowing?.startUtc ?? "") + HOUR_MS);
  const again = await planned({ ...request, machines, previous: first, nowUtc });
  expect(again.revision).toBe(1);
  expect(again.jobs).toContainEqual(mowing);
  const change = again.changes.find(({ fieldId, op }) => fieldId === "creek" && op === "bale");
  expect(change?.text).toMatch(
    /^Creek field: baling moves from \w{3} \d Jul \d\d:\d\d to \w{3} \d Jul \d\d:\d\d because the baler is off at that hour\.$/,
  );
  expect(again.messages.find(({ customer }) => customer === "First customer")?.text).toContain("Changed:");
  const response = await post(app, "/api/crew-plan/calendar", again);
  expect(response.headers.get("content-type")).toBe("text/calendar; charset=utf-8");
  const events = readCalendar(await response.text()).parts.filter(({ name }) => name === "VEVENT");
  expect(events).toHaveLength(8);
  const moved = events.find((event) => textOf(event, "SUMMARY") === "Creek field: baling");
  expect(moved && [fieldOf(moved, "SEQUENCE"), fieldOf(moved, "STATUS")]).toEqual(["1", "TENTATIVE"]);
  expect((await post(app, "/api/crew-plan/csv", again)).status).toBe(200);
});

test.each<[string, Partial<CrewPlanRequest>, string]>([
  [
    "a strange site",
    { fields: [crewField("a", { siteId: "x" })] },
    'fields[0].siteId: got "x", must be one of s1',
  ],
  ["works out of order", { fields: [crewField("a", { ops: ["bale", "mow"] })] }, "must begin with mow"],
  ["a drive within a site", { travelMin: { "s1|s1": 5 } }, "must be two different sites"],
  ["a drive to nowhere", { travelMin: { "s1|s9": 5 } }, 'travelMin.s1|s9: got "s9"'],
  [
    "two fields of one name",
    { fields: [crewField("a"), crewField("a")] },
    'fields[1].id: got "a" a second time',
  ],
  ["an area of 0", { fields: [crewField("a", { areaHa: 0 })] }, "fields[0].areaHa: got 0, must be above 0"],
  [
    "one visit of the plan before given twice",
    {
      previous: {
        jobs: ["mower-1", "mower-1"].map((machineId) => ({
          ...{ fieldId: "creek", op: "mow", machineId, personId: "a" },
          ...{ startUtc: "2026-07-01T15:00:00Z", endUtc: "2026-07-01T17:00:00Z" },
        })),
      },
    },
    'previous.jobs[1].op: got "mow", must stand once for "creek"',
  ],
  ["a time outside", { nowUtc: "2027-01-01T00:00:00Z" }, "nowUtc: got 2027-01-01T00:00:00Z"],
  ["hours of no clock", { people: [{ id: "a", from: "7", to: "20:00" }] }, "people[0].from"],
  [
    "hours that are all day or none",
    { people: [{ id: "a", from: "07:00", to: "07:00" }] },
    'people[0].to: got "07:00", must be another time than from (07:00)',
  ],
  [
    "off backwards",
    { people: [{ id: "a", from: "07:00", to: "20:00", offUtc: [{ fromUtc: FROM_UTC, toUtc: FROM_UTC }] }] },
    "must be later",
  ],
  [
    "a wrong machine fixed",
    { fixed: [{ fieldId: "creek", op: "mow", machineId: "baler-1", startUtc: FROM_UTC }] },
    "mow needs a mower",
  ],
  [
    "a machine fixed in two places",
    {
      fixed: ["creek", "hill"].map((fieldId) => ({
        fieldId,
        op: "mow" as const,
        machineId: "mower-1",
        startUtc: "2026-07-01T15:00:00Z",
      })),
    },
    'mower-1 must be free then, and is fixed at "creek"',
  ],
])("%s is refused with field, value and limit", async (_name, over, said) => {
  expect(await refused(over)).toContain(said);
});

test("a field that no machine is there for is left with its reason, and the others are served", async () => {
  const fields = [crewField("creek", { ops: ["mow", "bale"] }), crewField("hill", { name: "Hill" })];
  const machines = crewRequest().machines.filter(({ kind }) => kind === "mower" || kind === "baler");
  const answer = await planned(crewRequest({ fields, machines }));
  expect(new Set(answer.jobs.map(({ fieldId }) => fieldId))).toEqual(new Set(["creek"]));
  expect(answer.left).toMatchObject([
    {
      fieldId: "hill",
      why: "there is no tedder and no rake in the list",
      customerWhy: "there is no tedder and no rake for it",
      mownUtc: null,
    },
  ]);
  const none = await planned(crewRequest({ machines: [{ id: "m", kind: "cart" }], timeLimitS: 1 }));
  expect([none.jobs, none.value, none.bound]).toEqual([[], 0, 0]);
  expect(none.left.map(({ why }) => why)).toEqual(
    ["creek", "hill"].map(() => "there is no mower, no tedder, no rake and no baler in the list"),
  );
});

test("a question without sites is told what they must be", () => {
  const { sites: _sites, ...rest } = crewRequest();
  const checked = check(crewPlanRequest, rest);
  expect(checked.ok ? [] : checked.issues.map(({ message }) => message)).toEqual([
    "sites: missing; must be an object",
  ]);
});
