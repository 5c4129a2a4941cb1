import { expect, test } from "vitest";
import { findWindows } from "../../../model/harvest/index.ts";
import { chipsOf, readingDoubts } from "../../../web/answer/chips.ts";
import { DEMO_INPUTS } from "../../../web/state/inputs.ts";
import type { Picture } from "../../../web/state/state.ts";
import { missingHours } from "../../../web/states/missing-hours.ts";
import { metric24 } from "../../support/manners.ts";
import { exampleWindows } from "../../support/requests.ts";

/** Doubts about the weather stand beside the answer by their code, whatever the sentence says. */
test("a zone far from the place's sun, radiation at night and an early end are told in short", () => {
  const request = exampleWindows();
  const { weather } = request;
  const { hours, site } = weather;
  const last = hours.startUtc.length - 6;
  const odd = {
    ...weather,
    site: { ...site, timeZone: "Europe/Vienna" },
    hours: {
      ...hours,
      solarWm2: (hours.solarWm2 ?? []).map((wm2) => (wm2 === 0 ? 300 : wm2)),
      rainMm: hours.rainMm.map((mm, i) => (i < last ? mm : null)),
    },
  };
  const outcome = findWindows({ ...request, weather: odd });
  if (!outcome.ok) throw new Error(outcome.issues.map(({ message }) => message).join("; "));
  const answer = outcome.value;
  expect(answer.warningCodes).toHaveLength(answer.warnings.length);
  const source = { kind: "upload", name: "creek.csv", missing: 6, series: odd } as const;
  const picture: Picture = {
    id: 1,
    source,
    inputs: { ...DEMO_INPUTS },
    request: { ...request, weather: odd },
    answer,
    course: null,
    ribbons: {},
  };
  const told = chipsOf(picture, metric24(site.timeZone))
    .filter(({ caution }) => caution)
    .map(({ text }) => text);
  expect(told).toContain("The time zone is far from the place's sun: check zone and longitude");
  expect(told).toContain("Radiation with the sun down: check clock and place");
  expect(chipsOf(picture, metric24(site.timeZone)).map(({ text }) => text)).toContain(
    "One weather file, no spread yet",
  );
  // The gap that ends the weather is told with its hours, by the chip beside: not once more.
  expect(told.filter((text) => text.startsWith("Only the weather until"))).toEqual([]);
  expect(missingHours(odd, answer, metric24(site.timeZone))).toEqual([
    expect.stringMatching(/^Rain missing .*: the weather is used only until there$/),
  ]);
});

test("readings that hardly any course agrees with are doubted beside the answer, of their own cut only", () => {
  const route = { route: "dry-hay", windows: [] };
  const options = ["a", "b"].map((id) => ({ id, kind: "swath", cutUtc: null, routes: [route] }));
  const answer = { options, best: { overall: { optionId: "a", route: "dry-hay" } } };
  const readings = { fewAgree: "Hardly any of the 800.", readings: [{ used: true }, { used: false }] };
  const course = { optionId: "a", route: "dry-hay", course: { odds: { readings } } };
  const picture = { answer, course } as unknown as Picture;
  const looked = (optionId: string) => readingDoubts(picture, { optionId, route: null });
  expect(looked("a").map(({ text }) => text)).toEqual([
    "Hardly any drawn course agrees with what was read: measure again",
    "A reading is questioned and changes nothing yet: confirm it or measure again",
  ]);
  expect(looked("a").every(({ caution }) => caution)).toBe(true);
  expect(looked("b")).toEqual([]);
  expect(readingDoubts({ ...picture, course: null }, null)).toEqual([]);
});
