import { expect, test } from "vitest";
import { againstWords, meetsWords, standsAgainst } from "../../../model/crew/against.ts";
import { type BuiltCrew, buildGrid, type CrewJob, planFaults, rulesOf } from "../../../model/crew/index.ts";
import { crewField, crewRequest, FROM_UTC, spellWithMembers } from "../../support/crew/requests.ts";

const H = 3_600_000;

/** Works of the one field, each by its day, local hour and hours. */
function works(
  list: readonly (readonly [op: string, day: number, hour: number, hours: number])[],
): CrewJob[] {
  const machines: Readonly<Record<string, string>> = { mow: "mower-1", rake: "rake-1", bale: "baler-1" };
  return list.map(([op, day, hour, hours]) => {
    const startUtcMs = Date.parse(FROM_UTC) + (day * 24 + hour) * H;
    return {
      fieldId: "creek",
      op,
      machineId: machines[op] ?? "",
      personId: "a",
      startUtcMs,
      endUtcMs: startUtcMs + hours * H,
    };
  });
}

function built(route: "dry-hay" | "wrapped-bales"): BuiltCrew {
  const outcome = buildGrid(
    crewRequest({
      sites: { s1: { series: spellWithMembers(7, 0) } },
      fields: [crewField("creek", { route, ops: ["mow", "bale"] })],
    }),
  );
  if (!outcome.ok) throw new Error(JSON.stringify(outcome.issues));
  return outcome.value;
}

const hay = built("dry-hay");

test.each([
  [
    "fresh crop on a dry, sunny afternoon",
    [
      ["mow", 0, 8, 2],
      ["bale", 0, 14, 2],
    ],
    "the crop is too wet for baling then",
  ],
  [
    "rain on lying crop",
    [
      ["mow", 0, 8, 2],
      ["bale", 4, 10, 2],
    ],
    /^baling meets rain\b/,
  ],
  [
    "the night",
    [
      ["mow", 0, 8, 2],
      ["bale", 3, 0, 2],
    ],
    /^baling meets (dew and )?darkness\b/,
  ],
  ["a mowing in the rain", [["mow", 4, 10, 2]], "mowing meets rain"],
  ["the past", [["mow", -1, 10, 2]], "mowing would begin in the past"],
] as const)("what stands against a work is told as it is: %s", (_name, list, text) => {
  const said = planFaults(rulesOf(hay), works(list))
    .filter(({ code }) => code === "weather")
    .map((fault) => fault.text.replace(/^creek: /, ""));
  expect(said.at(-1)).toMatch(typeof text === "string" ? new RegExp(`^${text}$`) : text);
});

test("crop that is drier than the band is not called rain, dew or dark", () => {
  const own = works([
    ["mow", 0, 8, 2],
    ["bale", 3, 14, 2],
  ]);
  const [, bale] = own as [CrewJob, CrewJob];
  const span = { fromUtcMs: bale.startUtcMs, toUtcMs: bale.endUtcMs };
  const found = standsAgainst(built("wrapped-bales"), "creek", "bale", span, own);
  expect(found).toEqual({ weather: [], wetFromRain: false, crop: "too dry" });
  expect(meetsWords("bale", found)).toBe("the crop is too dry for baling then");
  expect(againstWords("bale", found)).toBe("the crop is too dry for it at that hour");
  expect(standsAgainst(hay, "creek", "bale", span, own)).toEqual({
    weather: [],
    wetFromRain: false,
    crop: null,
  });
});

test("water that fell as rain since the crop was last dry is not called dew", () => {
  const against = (day: number, hour: number) => {
    const own = works([
      ["mow", 2, 8, 2],
      ["bale", day, hour, 2],
    ]);
    const [, bale] = own as [CrewJob, CrewJob];
    const span = { fromUtcMs: bale.startUtcMs, toUtcMs: bale.endUtcMs };
    return standsAgainst(hay, "creek", "bale", span, own);
  };
  // It rains from 10:00 to 12:00 on the fifth day.
  const during = against(4, 10);
  expect(during.weather).toContain("rain");
  expect(during.wetFromRain).toBe(true);
  const after = against(4, 12);
  expect(after.weather).not.toContain("rain");
  expect(after.weather).not.toContain("dew");
  expect(after.wetFromRain).toBe(true);
  expect(meetsWords("bale", after)).toMatch(/the crop is wet from rain\b/);
  expect(againstWords("bale", after)).toMatch(/the crop is wet from rain\b/);
  const dewy = against(4, 4);
  expect(dewy.weather).toContain("dew");
  expect(dewy.wetFromRain).toBe(false);
});
