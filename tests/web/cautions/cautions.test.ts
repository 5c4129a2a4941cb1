import { expect, test } from "vitest";
import { CROPS } from "../../../model/drying/index.ts";
import { ROUTES } from "../../../model/harvest/index.ts";
import { beforeCutting, ROUTE_CAUTIONS } from "../../../web/cautions/cautions.ts";

test("every reason of a caution names its author, title and year", () => {
  const all = [...CROPS.map((crop) => beforeCutting(crop)), ...ROUTES.map((route) => ROUTE_CAUTIONS[route])];
  for (const { reasons } of all)
    for (const { text, source } of reasons) {
      expect(text).toMatch(/\.$/);
      for (const one of source.split("; ").filter((part) => !part.endsWith("from memory")))
        expect(one).toMatch(/^[^,]+, .+, (\d{4}|no year)$/);
    }
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
