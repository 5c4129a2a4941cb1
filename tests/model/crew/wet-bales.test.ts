import { expect, test } from "vitest";
import { buildGrid, planBuilt } from "../../../model/crew/index.ts";
import {
  crewField,
  crewRequest,
  FROM_UTC,
  heldCautions,
  spellWithMembers,
} from "../../support/crew/requests.ts";

const utc = (hours: number) =>
  new Date(Date.parse(FROM_UTC) + hours * 3_600_000).toISOString().replace(".000Z", "Z");
const base = crewRequest({
  sites: { s1: { series: spellWithMembers(3, 3, 9) } },
  fields: [crewField("creek", { ops: ["mow", "rake", "bale"], name: "Creek field" })],
  people: [{ id: "a", from: "07:00", to: "20:00" }],
});
const held = (op: "mow" | "rake" | "bale", machineId: string, hours: number) => ({
  fieldId: "creek",
  op,
  machineId,
  startUtc: utc(hours),
});

async function baledAt(raked: number, hours: number) {
  const fixed = [held("mow", "mower-1", 9), held("rake", "rake-1", raked), held("bale", "baler-1", hours)];
  const outcome = buildGrid({ ...base, fixed });
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return planBuilt(outcome.value, { solver: null, elapsedS: () => 0, brief: true });
}

test("bales held in wet crop are cautioned, and lose no less than dry ones", async () => {
  const [soaked, dry] = [await baledAt(12, 15), await baledAt(58, 63)];
  expect(soaked.replay[0]?.notDry).toEqual([{ cause: "slow", share: 1 }]);
  expect([soaked.replay[0]?.chanceDry, dry.replay[0]?.chanceDry]).toEqual([0, 1]);
  expect(soaked.replay[0]?.expectedLossPct).toBeGreaterThan(dry.replay[0]?.expectedLossPct as number);
  const wet = soaked.cautions.find(({ code }) => code === "wet");
  expect(wet).toEqual({
    fieldId: "creek",
    op: "bale",
    code: "wet",
    path: "fixed[2]",
    text: "Creek field: baling is held at Wed 1 Jul 15:00, and the chance that the crop is dry enough for it is under 1 in 10.",
  });
  expect(soaked.warnings).toContain(wet?.text);
  expect(heldCautions(dry)).toEqual([]);
});
