import { expect, test } from "vitest";
import { formCaution } from "../../../web/book/label-caution.ts";
import type { Manner } from "../../../web/format/manner.ts";

const manner: Manner = { units: "metric", locale: "en", hour12: false, zone: "America/Chicago" };
const BOOK = {
  fields: [],
  cuts: [],
  readings: [],
  lots: [],
  sites: [],
  machines: [],
  people: [],
  prices: [],
  herds: [],
};

test("a lot that is entered as opened inside the three weeks of silo gas is cautioned in its form", () => {
  const caution = (openedUtc: string, route = "wilted-chop") =>
    formCaution("lots", { route, crop: "corn", storedUtc: "2026-07-01T12:00", openedUtc }, BOOK, manner);
  expect(caution("2026-07-10T12:00")).toBe("Silo gas kills: keep out until Wednesday 22 Jul.");
  expect(caution("2026-07-23T12:00")).toBe("");
  expect(caution("2026-07-10T12:00", "wrapped-bales")).toBe("");
});
