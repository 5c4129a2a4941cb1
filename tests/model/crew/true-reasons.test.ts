import { expect, test } from "vitest";
import {
  buildGrid,
  type CrewPlanAnswer,
  type CrewPlanRequest,
  planBuilt,
} from "../../../model/crew/index.ts";
import { differingCrew } from "../../support/crew/differing.ts";
import { falseReasons } from "../../support/crew/reason-claims.ts";
import { rainedOn } from "../../support/crew/requests.ts";

async function planned(request: CrewPlanRequest): Promise<CrewPlanAnswer> {
  const built = buildGrid(request);
  if (!built.ok) throw new Error(built.issues[0]?.message);
  return planBuilt(built.value, { solver: null, elapsedS: () => 0 });
}

const NOW = "2026-07-02T14:10:00Z";

/** What comes about after a plan was made. */
const EVENTS: readonly (readonly [
  string,
  (asked: CrewPlanRequest, seed: number) => Partial<CrewPlanRequest>,
])[] = [
  ["an hour later", () => ({ nowUtc: "2026-07-01T14:10:00Z" })],
  ["a day later", () => ({ nowUtc: "2026-07-02T17:10:00Z" })],
  [
    "rain comes",
    (asked, seed) => ({ nowUtc: NOW, sites: rainedOn(asked.sites, [58 + (seed % 20), 61 + (seed % 20)], 2) }),
  ],
  [
    "the baler is away",
    ({ machines }) => ({
      nowUtc: NOW,
      machines: machines.map((one) =>
        one.kind === "baler" ? { ...one, offUtc: [{ fromUtc: NOW, toUtc: "2026-07-03T17:00:00Z" }] } : one,
      ),
    }),
  ],
  [
    "a field more",
    ({ fields }) => ({
      nowUtc: "2026-07-01T14:10:00Z",
      fields: [
        ...fields,
        ...fields.slice(0, 1).map((one) => ({ ...one, id: "z", name: "z", valuePerHa: 900 })),
      ],
    }),
  ],
];

test.each([16, 21, 25])(
  "crew of chance %i: no reason for a change is against the plan itself",
  async (seed) => {
    const asked = differingCrew(seed);
    const previous = await planned(asked);
    let moved = 0;
    for (const [name, change] of EVENTS) {
      const question = { ...asked, ...change(asked, seed), previous };
      const answer = await planned(question);
      moved += answer.changes.filter(({ fromUtc, toUtc }) => fromUtc !== null && toUtc !== null).length;
      expect(falseReasons(question, answer), name).toEqual([]);
    }
    expect(moved).toBeGreaterThan(0);
  },
);
