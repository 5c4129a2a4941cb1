import { expect, test } from "vitest";
import type { RouteAnswer } from "../../../model/harvest/index.ts";
import { windowReasons } from "../../../web/board/sentences.ts";
import { lossBesideMark, lossSentence, shatteredPct } from "../../../web/course/leaf-loss.ts";
import { metric24 } from "../../support/manners.ts";

const manner = metric24("America/Chicago");
const alfalfa = { crop: "alfalfa", dryMatterTHa: 3 } as const;
const grass = { crop: "cool-season-grass", dryMatterTHa: 3 } as const;

// Alberta Agriculture: alfalfa tedded above 50 % moisture loses under 5 %, to 15 % when drier; grass 2-3 % at any.
test.each([
  ["ted", alfalfa, 0.7, false],
  ["ted", alfalfa, 0.5, false],
  ["ted", alfalfa, 0.19, true],
  ["ted", grass, 0.19, false],
  ["rake", alfalfa, 0.4, false],
  ["rake", alfalfa, 0.18, true],
] as const)("%s over %o at %f: worth a word %s", (kind, swath, moistureWb, told) => {
  expect(shatteredPct(kind, swath, moistureWb) !== null).toBe(told);
});

test("the loss stands beside the mark and in a sentence, and neither where there is none", () => {
  const pct = shatteredPct("ted", alfalfa, 0.19);
  expect(pct).toBeGreaterThan(10);
  expect(lossBesideMark(pct, manner)).toMatch(/^, loses 1\d %$/);
  expect(lossSentence("ted", alfalfa, 0.19, pct, manner)).toMatch(
    /^Alfalfa is at about 19.% then: tedding shatters about 1\d % of its dry matter, leaf first\./,
  );
  expect(lossBesideMark(null, manner) + lossSentence("ted", alfalfa, null, null, manner)).toBe("");
});

test("a row's window says which pass shatters leaf", () => {
  const route = (pct: number) =>
    ({
      route: "dry-hay",
      why: [],
      lossSteps: [
        { step: "ted", pct },
        { step: "mowing", pct: 9 },
      ],
    }) as unknown as RouteAnswer;
  expect(windowReasons(route(16.4))[0]).toBe(
    "Tedding that dry shatters about 16 % of the dry matter, leaf first.",
  );
  expect(windowReasons(route(3)).join()).not.toMatch(/shatters/);
});
