import { expect, test } from "vitest";
import { buildGrid, type CrewPlanRequest, planBuilt } from "../../../model/crew/index.ts";
import { crewField, crewRequest, FROM_UTC, spellWithMembers } from "../../support/crew/requests.ts";

const utc = (hour: number) =>
  new Date(Date.parse(FROM_UTC) + hour * 3_600_000).toISOString().replace(".000Z", "Z");
const base = crewRequest({ sites: { s1: { series: spellWithMembers(5, 0) } }, horizonDays: 4 });
const awayBaler = (from: number, to: number) =>
  base.machines.map((one) =>
    one.kind === "baler" ? { ...one, offUtc: [{ fromUtc: utc(from), toUtc: utc(to) }] } : one,
  );
const work = (fieldId: string, op: "mow" | "ted", machineId: string, hour: number) => ({
  fieldId,
  op,
  machineId,
  personId: "a",
  startUtc: utc(hour),
});

async function answered(over: Partial<CrewPlanRequest>, brief = true) {
  const outcome = buildGrid({ ...base, ...over });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return planBuilt(outcome.value, { solver: null, elapsedS: () => 0, brief });
}

test("a held mowing that nothing can follow: do not mow, in the reason and as a caution; in doubt, to the customer", async () => {
  const fixed = [work("creek", "mow", "mower-1", 34)];
  const answer = await answered({ fixed, machines: awayBaler(-24, 200) });
  const why = answer.left.find(({ fieldId }) => fieldId === "creek")?.why ?? "";
  expect(why).toMatch(
    /^its mowing is held at Thu 2 Jul 10:00, but it would lie mown \(do not mow\), because the only baler/,
  );
  const caution = answer.cautions.find(({ code }) => code === "would-lie");
  expect(caution).toMatchObject({ fieldId: "creek", op: "mow", path: "fixed[0]" });
  expect(answer.warnings).toContain(caution?.text);
  // What the crew is to do is no word for the customer.
  const told = answer.messages.find(({ customer }) => customer === "First customer")?.text;
  expect(told).toContain("its mowing is held at Thu 2 Jul 10:00, and is in doubt");
  expect(told).not.toContain("do not mow");
});

test("a baling held too early for its mowing: the cause is named, and that its baler waits for nothing", async () => {
  const fixed = [{ fieldId: "creek", op: "bale" as const, machineId: "baler-1", startUtc: utc(10) }];
  const answer = await answered({ fixed });
  expect(answer.left.find(({ fieldId }) => fieldId === "creek")?.why).toBe(
    "its baling is held at Wed 1 Jul 10:00, and mowing, tedding and raking find no place before it",
  );
  const caution = answer.cautions.find(({ code }) => code === "held-in-vain");
  expect(caution).toMatchObject({ fieldId: "creek", op: "bale", path: "fixed[0]" });
  expect(caution?.text).toMatch(
    /^Creek field: baling is held at Wed 1 Jul 10:00, but mowing, tedding and raking before it are not planned/,
  );
});

test("a baling held on a field that others keep the machines from: its reason names it, its customer reads of doubt", async () => {
  const fixed = [{ fieldId: "creek", op: "bale" as const, machineId: "baler-1", startUtc: utc(62) }];
  const machines = base.machines.map((one) =>
    one.kind === "mower" ? { ...one, offUtc: [{ fromUtc: utc(-24), toUtc: utc(200) }] } : one,
  );
  const answer = await answered({ fixed, machines });
  const at = "its baling is held at Fri 3 Jul 14:00";
  const away = "the only mower is away through all of these days";
  expect(answer.left.find(({ fieldId }) => fieldId === "creek")).toMatchObject({
    why: `${at} for nothing, because ${away}`,
    customerWhy: `${at}, and is in doubt, because ${away}`,
  });
  expect(answer.cautions.map(({ code }) => code)).toContain("held-in-vain");
});

test("mown crop that is given up for a standing field is cautioned, both named", async () => {
  const fields = [
    crewField("creek", { name: "Creek field" }),
    crewField("hill", { name: "Hilltop", valuePerHa: 900 }),
  ];
  // One baling of two hours is all that the baler has time for.
  const open = [54, 62];
  for (const [from, to] of [[61, 63], [62, 64], [60, 62], open] as const) {
    const machines = base.machines.map((one) =>
      one.kind === "baler"
        ? {
            ...one,
            offUtc: [
              { fromUtc: utc(-24), toUtc: utc(from) },
              { fromUtc: utc(to), toUtc: utc(200) },
            ],
          }
        : one,
    );
    const fixed = [work("creek", "mow", "mower-1", 9), work("creek", "ted", "tedder-1", 12)];
    const answer = await answered({ fields, machines, fixed, nowUtc: utc(13) });
    const [left] = answer.left;
    if (answer.left.length !== 1 || left?.fieldId !== "creek") continue;
    const caution = answer.cautions.find(({ code }) => code === "given-up");
    expect(caution).toMatchObject({ fieldId: "creek", op: "rake", path: "fixed[0]" });
    expect(caution?.text).toMatch(
      /^Creek field lies mown since Wed 1 Jul 09:00 and is given up, while Hilltop is/,
    );
    // Of what would help no other crew is the first: it is told with the change that helps most, or with none.
    const whole = await answered({ fields, machines, fixed, nowUtc: utc(13) }, false);
    expect(whole.help?.text ?? whole.noHelp).toMatch(
      / With this crew Creek field, which lies mown, could be brought in instead of Hilltop: raise the priority of what lies mown\.$/,
    );
    const first = fields.map((field) => (field.id === "creek" ? { ...field, priority: 3 } : field));
    const raised = await answered({ fields: first, machines, fixed, nowUtc: utc(13) });
    expect(raised.left.map(({ fieldId }) => fieldId)).not.toContain("creek");
    return;
  }
  throw new Error("no question in which the mown field is left");
});

test("done work whose mowing is not told is the reason itself", async () => {
  const fixed = [work("creek", "ted", "tedder-1", 10)];
  const answer = await answered({ fixed, nowUtc: utc(30) });
  expect(answer.left.find(({ fieldId }) => fieldId === "creek")?.why).toBe(
    "tedding is held at Wed 1 Jul 10:00, and mowing before it is not; hold mowing too if it is done",
  );
});

test("a field that falls out because a machine is away is told so, not that others bring more", async () => {
  const fields = ["creek", "hill", "mill"].map((id, i) => crewField(id, { areaHa: 8 + 4 * i }));
  const whole = await answered({ fields });
  for (const back of [60, 82, 84, 86]) {
    const answer = await answered({ fields, machines: awayBaler(-24, back) });
    const [gone] = answer.left.filter(({ fieldId }) => !whole.left.some((one) => one.fieldId === fieldId));
    if (gone === undefined || answer.left.length === 3) continue;
    expect(gone.why).toMatch(/^the only baler is away until .* Jul/);
    expect(gone.customerWhy ?? gone.why).not.toContain("bring more");
    return;
  }
  throw new Error("no question in which only some fields fall out");
});
