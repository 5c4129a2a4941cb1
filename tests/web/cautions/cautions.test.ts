import { expect, test } from "vitest";
import { CROPS } from "../../../model/drying/index.ts";
import { ROUTES } from "../../../model/harvest/index.ts";
import { beforeCutting as gateOf } from "../../../model/harvest/value/index.ts";
import { beforeCutting, ROUTE_CAUTIONS, routeCaution } from "../../../web/cautions/cautions.ts";

test("every reason of a caution names its author, title and year", () => {
  const all = [
    ...CROPS.map((crop) => beforeCutting(crop)),
    ...ROUTES.map((route) => ROUTE_CAUTIONS[route]),
    ...ROUTES.map((route) => routeCaution(route, "forage-sorghum")),
  ];
  for (const { reasons } of all)
    for (const { text, source } of reasons) {
      expect(text).toMatch(/\.$/);
      for (const one of source.split("; ").filter((part) => !part.endsWith("from memory")))
        expect(one).toMatch(/^[^,]+, .+, (\d{4}|no year)$/);
    }
});

test("fermented sorghum types wait for their prussic acid, the others as long as ever", () => {
  expect(routeCaution("wrapped-bales", "sorghum-sudan").orders).toContain(
    "Wait 8 weeks, test, then decide on feeding.",
  );
  expect(routeCaution("wilted-chop", "sudangrass").orders.join(" ")).toContain("Wait 8 weeks");
  expect(routeCaution("wrapped-bales", "alfalfa").orders.join(" ")).toContain("Wait 6 weeks");
  expect(routeCaution("dry-hay", "sudangrass")).toEqual(ROUTE_CAUTIONS["dry-hay"]);
});

test("a question that was ticked at the gate is no longer asked, and still says that it was only ticked", () => {
  const { orders } = beforeCutting("sorghum-sudan", ["insurer", "nitrate"]);
  expect(orders).toEqual([
    "Insurer or adjuster told: ticked.",
    "Harvest intervals on every label read?",
    "Prussic acid sampled? (Nitrate: ticked.)",
  ]);
  expect(beforeCutting("alfalfa").orders).toHaveLength(3);
});

test("every caution before cutting is a question of the gate too, with the same condition: neither asks what the other does not", () => {
  for (const crop of CROPS) {
    const gate = gateOf(crop).filter(({ key }) => key !== "worth-waiting");
    const nothing = beforeCutting(crop).orders.join(" ");
    const all = beforeCutting(
      crop,
      gate.map(({ key }) => key),
    ).orders.join(" ");
    expect(nothing, crop).not.toContain("ticked");
    expect(all, crop).not.toContain("?");
    const sampled = gate.find(({ key }) => key === "nitrate");
    expect(sampled?.ask.includes("if "), crop).toBe(nothing.includes("if the crop was stressed"));
    expect(
      gate.some(({ key }) => key === "prussic-acid"),
      crop,
    ).toBe(nothing.includes("prussic acid"));
  }
});
