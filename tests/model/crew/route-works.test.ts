import { expect, test } from "vitest";
import type { CrewOp } from "../../../model/crew/index.ts";
import {
  type AskedWorks,
  otherWorksWords,
  sameWorks,
  unlessWords,
  worksOfRoute,
} from "../../../model/crew/route-works.ts";
import { SWATH_ROUTES } from "../../../model/crew/swath-routes.ts";
import { crewField, crewRequest } from "../../support/crew/requests.ts";

const [HAY, WRAPPED, CHOP] = SWATH_ROUTES;

function asked(ops: readonly CrewOp[], kinds: readonly string[], held: readonly CrewOp[] = []): AskedWorks {
  const request = crewRequest({ fields: [crewField("creek", { ops })] });
  const machines = kinds.map((kind) => ({ id: kind, kind: kind as never }));
  return { request: { ...request, machines }, field: crewField("creek", { ops }), held };
}

const HAY_CREW = ["mower", "tedder", "rake", "baler", "wrapper"];

test("another route has the works as they are, as far as it needs them", () => {
  const works = asked(["mow", "ted", "rake", "bale", "haul"], HAY_CREW);
  expect(sameWorks(works, WRAPPED)).toEqual(["mow", "rake", "bale", "wrap", "haul"]);
  expect(sameWorks(works, CHOP)).toBeNull();
  // What is tedded or baled already stays so.
  expect(sameWorks({ ...works, held: ["mow", "ted"] }, WRAPPED)).toContain("ted");
  expect(sameWorks({ ...works, held: ["mow", "wrap"] }, HAY)).toBeNull();
  expect(sameWorks(asked(["mow", "bale", "wrap"], HAY_CREW), HAY)).toEqual(["mow", "rake", "bale"]);
});

test("a route leaves the works to choose for which there are machines, those of fewest first", () => {
  const works = asked(["mow", "ted", "rake", "bale"], HAY_CREW);
  expect(worksOfRoute(works, WRAPPED).map((ops) => ops.join())).toEqual([
    "mow,bale,wrap",
    "mow,bale",
    "mow,rake,bale,wrap",
    "mow,rake,bale",
    "mow,ted,bale,wrap",
    "mow,ted,bale",
    "mow,ted,rake,bale,wrap",
    "mow,ted,rake,bale",
  ]);
  const few = asked(["mow", "bale", "haul"], ["mower", "baler", "cart"]);
  expect(worksOfRoute(few, HAY)).toEqual([["mow", "bale", "haul"]]);
  expect(worksOfRoute(few, CHOP)).toEqual([]);
  expect(worksOfRoute({ ...works, held: ["mow", "rake"] }, HAY).every((ops) => ops.includes("rake"))).toBe(
    true,
  );
});

test("works that are not those asked for are named, and who would have to wrap", () => {
  expect(otherWorksWords(["mow", "ted", "rake", "bale"], ["mow", "bale", "wrap"])).toBe(
    ", without tedding and raking",
  );
  expect(otherWorksWords(["mow", "ted", "bale"], ["mow", "rake", "bale"])).toBe(
    ", with raking, without tedding",
  );
  expect(otherWorksWords(["mow", "bale"], ["mow", "chop"])).toBe("");
  const works = asked(["mow", "ted", "rake", "bale"], HAY_CREW);
  expect(unlessWords(works, "wrapped-bales", ["mow", "bale", "wrap"])).toBe("");
  expect(unlessWords(works, "wrapped-bales", ["mow", "bale"])).toBe(
    ", if somebody else wraps the bales within 12 h",
  );
  expect(unlessWords(asked(["mow", "bale"], ["mower", "baler"]), "wrapped-bales", ["mow", "bale"])).toBe(
    ", if somebody wraps the bales within 12 h",
  );
});
