import { expect, test } from "vitest";
import { buildGrid, planBuilt } from "../../../model/crew/index.ts";
import { crewField, crewRequest, spellWithMembers } from "../../support/crew/requests.ts";

test("a field that is raked is dry in as many members as its window was asked for", async () => {
  const built = buildGrid(
    crewRequest({
      sites: { s1: { series: spellWithMembers(4, 5, 3) } },
      fields: [crewField("creek", { ops: ["mow", "rake", "bale"] })],
    }),
  );
  if (!built.ok) throw new Error(built.issues[0]?.message);
  const { replay } = await planBuilt(built.value, { solver: null, elapsedS: () => 0, brief: true });
  expect(replay[0]?.chanceDry).toBeGreaterThanOrEqual(0.8);
});
