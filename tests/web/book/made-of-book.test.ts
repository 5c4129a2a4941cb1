import { expect, test } from "vitest";
import type { Entry } from "../../../model/book/index.ts";
import { madeOfBook } from "../../../web/book/made-of-book.ts";
import { joinMade } from "../../../web/made/made-cuts.ts";

const NOW = Date.parse("2026-07-03T12:00:00Z");
const place = {
  latitude: 44.3,
  longitude: -98.2,
  elevationM: 400,
  timeZone: "America/Chicago",
  provider: null,
};
const field = { id: "f1", doc: { name: "Creek field", crop: "alfalfa" } } as unknown as Entry<"fields">;
const cut = (doc: object) =>
  ({ id: "c1", doc: { fieldId: "f1", crop: "alfalfa", ...doc } }) as unknown as Entry<"cuts">;

test("a cut that was mown and not brought in lies; one that is planned, closed, old or of another field does not", () => {
  const cuts = [
    cut({ cutUtc: "2026-07-02T14:00:00Z" }),
    cut({ plannedUtc: "2026-07-02T15:00:00Z" }),
    cut({ cutUtc: "2026-07-01T14:00:00Z", closedUtc: "2026-07-03T10:00:00Z" }),
    cut({ cutUtc: "2026-06-01T14:00:00Z" }),
    cut({ fieldId: "f2", cutUtc: "2026-07-02T16:00:00Z" }),
  ];
  const lying = madeOfBook(field, cuts, place, NOW);
  expect(lying).toEqual([
    {
      cutUtc: "2026-07-02T14:00:00Z",
      weather: "place 44.3 -98.2",
      field: "alfalfa creek field",
      keptMs: NOW,
    },
  ]);
  expect(joinMade(lying, lying)).toEqual(lying);
});
