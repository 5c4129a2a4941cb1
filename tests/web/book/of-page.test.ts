import { expect, test } from "vitest";
import type { DrydownAnswer } from "../../../model/drying/index.ts";
import { findWindows } from "../../../model/harvest/index.ts";
import { recordOfBook } from "../../../model/odds/index.ts";
import { check } from "../../../server/check.ts";
import { BOOK_SCHEMAS } from "../../../server/schemas/book/kinds.ts";
import sample from "../../../weather-samples/settled-dry.json" with { type: "json" };
import {
  cutOfChoice,
  cutOfReading,
  isAsMade,
  issuedDoc,
  issuedUtcOf,
  uploadDoc,
} from "../../../web/book/issued.ts";
import {
  cutOfPage,
  fieldOfPage,
  inputsOfField,
  placeOfField,
  samePlace,
  siteOfPage,
} from "../../../web/book/of-page.ts";
import { bestRoute } from "../../../web/state/choice.ts";
import { DEMO_INPUTS, type Inputs } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import type { Picture, Sample } from "../../../web/state/state.ts";

const source = { kind: "sample", ...(sample as Sample) } as const;

function pictureOf(inputs: Inputs): Picture {
  const { question } = readInputs(inputs);
  if (question === null) throw new Error("no question");
  const request = { ...question, weather: source.series, cutHours: [10] };
  const answer = findWindows(request);
  if (!answer.ok) throw new Error(answer.issues[0]?.message);
  return { id: 1, source, inputs, request, answer: answer.value, course: null, ribbons: {} };
}

const typed: Inputs = {
  ...DEMO_INPUTS,
  fieldName: "River field",
  conditioning: "impeller",
  soil: "wet",
  texts: {
    ...DEMO_INPUTS.texts,
    areaHa: { text: "12", units: "us" },
    yieldTHa: { text: "4.2", units: "metric" },
    moisturePct: { text: "81", units: "metric" },
    rakeBeforeH: { text: "2", units: "metric" },
  },
};
const picture = pictureOf(typed);

test("the page's field is one that the server takes, and opened again it gives the same question", () => {
  const field = fieldOfPage(picture, "home");
  expect(check<unknown>(BOOK_SCHEMAS.fields, field)).toMatchObject({ ok: true });
  expect(check<unknown>(BOOK_SCHEMAS.sites, siteOfPage(source))).toMatchObject({ ok: true });
  const again = inputsOfField(field, DEMO_INPUTS);
  const { question } = readInputs(again);
  expect(again.fieldName).toBe("River field");
  expect(question?.swath.coveredFraction).toBeCloseTo(picture.request.swath.coveredFraction, 4);
  expect(question?.field?.areaHa).toBeCloseTo(4.8562, 3);
  const { swath } = picture.request;
  expect(question?.swath).toEqual({ ...swath, coveredFraction: question?.swath.coveredFraction });
  // A lever that the field itself does not name came along in its link.
  expect(again.texts.rakeBeforeH.text).toBe("2");
});

test("what the field says itself goes over its link, and out of limits it stays out", () => {
  const field = {
    ...fieldOfPage(picture, "home"),
    crop: "corn" as const,
    dryMatterTHa: 9,
    initialMoistureWb: null,
  };
  const inputs = inputsOfField(field, DEMO_INPUTS);
  expect(inputs.crop).toBe("corn");
  expect(inputs.texts.yieldTHa).toEqual({ text: "9", units: "metric" });
  expect(inputsOfField({ ...field, areaHa: 1e9 }, DEMO_INPUTS).texts.areaHa.text).not.toContain("1000000000");
});

test("the chosen cut is planned with its passes and the machine of its first window", () => {
  const option = picture.answer.options.find(({ id }) => id === picture.answer.best.overall?.optionId);
  if (!option) throw new Error("no best option");
  const route = bestRoute(option);
  const cut = cutOfPage(picture, { option, route }, "creek");
  expect(check<unknown>(BOOK_SCHEMAS.cuts, cut)).toMatchObject({ ok: true });
  expect(cut).toMatchObject({ fieldId: "creek", plannedUtc: option.cutUtc, route: route?.route });
  expect(cut.operations?.at(-1)?.plannedUtc).toBe(route?.windows[0]?.startUtc);
  expect(cut.notes).toBe("Planned on invented weather.");
});

test("a field is where its own spot is, else where its place is", () => {
  const site = siteOfPage(source);
  const entry = { id: "home", revision: 1, createdUtc: "", changedUtc: "", deleted: false, doc: site };
  const field = fieldOfPage(picture, "home");
  expect(placeOfField(field, [entry])).toMatchObject({ latitude: 44.3, timeZone: "America/Chicago" });
  expect(placeOfField({ ...field, latitude: 44.4, longitude: -98 }, [entry])).toMatchObject({
    latitude: 44.4,
  });
  expect(placeOfField(field, [])).toBeNull();
  expect(samePlace(site, { latitude: 44.3004, longitude: -98.2 })).toBe(true);
});

test("a told forecast of a kept cut is one that the server takes, and its later reading is scored by it", () => {
  const bestOf = picture.answer.options.find(({ cutUtc }) => cutUtc !== null) ?? picture.answer.options[0];
  if (!bestOf) throw new Error("no option");
  const choice = { option: bestOf, route: bestRoute(bestOf) };
  const startUtc = ["2026-06-01T10:00:00Z", "2026-06-01T11:00:00Z"];
  const hours = { startUtc, moistureWb: [0.5, 0.4] };
  const q = { p10: [0.4, 0.3], p25: [0.45, 0.35], p50: [0.5, 0.4], p75: [0.55, 0.45], p90: [0.6, 0.5] };
  const course = { modelVersion: "1", hours, odds: { moistureWb: q } } as unknown as DrydownAnswer;
  const told = { ...picture, course: { optionId: bestOf.id, route: null, course } };
  const of = { fieldId: "f", cutId: "c", issuedUtc: "2026-06-01T09:00:00Z" };
  const doc = issuedDoc(told, choice, of);
  expect(check<unknown>(BOOK_SCHEMAS.forecasts, doc)).toMatchObject({ ok: true });
  const cut = { ...head, id: "c", doc: cutOfPage(picture, choice, "f") };
  expect(cutOfChoice([cut], "f", picture, choice)?.id).toBe("c");
  expect(cutOfReading([cut], "f", "2099-01-01T00:00:00Z")).toBe("c");
  const reading = { fieldId: "f", cutId: "c", atUtc: "2026-06-01T11:30:00Z", moistureWb: 0.44 };
  expect(recordOfBook("UTC", [doc], [reading]).moisture).toHaveLength(1);
  // The members of an ensemble would fill the book: the question is kept without them.
  const weather = { ...picture.request.weather, members: [{ airTempC: source.series.hours.airTempC }] };
  const ofMembers = issuedDoc({ ...told, request: { ...picture.request, weather } }, choice, of);
  expect(ofMembers.request).toEqual(doc.request);
  // Of no kept cut the inputs are kept, and no course that another cut's readings would be held to.
  const ofNone = issuedDoc(told, choice, { ...of, cutId: null });
  expect([ofNone.course, ofNone.chances]).toEqual([undefined, undefined]);
  const upload = uploadDoc("station.csv", "home", source.series);
  expect(check<unknown>(BOOK_SCHEMAS.uploads, upload)).toMatchObject({ ok: true });
});

test("of each route the chance of its first window is kept with cut and band, once; the cut's baling tells whether it came", () => {
  const option = picture.answer.options.find(({ routes }) =>
    routes.some(({ windows }) => windows.length > 1),
  );
  if (!option) throw new Error("no option with two windows");
  const withChance = option.routes.map((one) => ({
    ...one,
    windows: one.windows.map((window, i) => ({ ...window, chance: i === 0 ? 0.7 : 0.3 })),
  }));
  const choice = { option: { ...option, routes: withChance }, route: bestRoute(option) };
  const issuedUtc = source.series.hours.startUtc[0] ?? "";
  const of = { fieldId: "f", cutId: "c", issuedUtc };
  const doc = issuedDoc(picture, choice, of);
  expect(check<unknown>(BOOK_SCHEMAS.forecasts, doc)).toMatchObject({ ok: true });
  const told = doc.chances?.find(({ route }) => route === "dry-hay");
  const window = option.routes.find(({ route }) => route === "dry-hay")?.windows[0];
  expect(told).toMatchObject({ fromUtc: window?.startUtc, cutUtc: option.cutUtc, chance: 0.7 });
  expect(told?.bandWb?.[1]).toBeLessThan(0.25);
  expect(issuedDoc(picture, choice, { ...of, cutId: null }).chances).toBeUndefined();
  const operations = [{ kind: "bale", doneUtc: window?.startUtc }];
  const cut = { ...cutOfPage(picture, choice, "f"), id: "c", route: "dry-hay", operations };
  const { chances } = recordOfBook("UTC", [doc], [], { cuts: [cut] });
  expect(chances?.map(({ route, chance, came }) => [route, chance, came])).toEqual([["dry-hay", 0.7, true]]);
});

const head = { revision: 1, createdUtc: "", changedUtc: "", deleted: false };

test("a forecast is of a kept cut only in the swath and by the route that the book knows of it", () => {
  const option = picture.answer.options.find(({ cutUtc }) => cutUtc !== null);
  if (!option) throw new Error("no cut");
  const route = bestRoute(option);
  const cut = cutOfPage(picture, { option, route }, "f");
  const field = fieldOfPage(picture, "home");
  const told = (swath: object, by = route) =>
    isAsMade(
      cut,
      field,
      { request: { ...picture.request, swath: { ...picture.request.swath, ...swath } } },
      by,
    );
  expect(told({})).toBe(true);
  expect(told({ coveredFraction: picture.request.swath.coveredFraction / 2 })).toBe(false);
  expect(told({ initialMoistureWb: picture.request.swath.initialMoistureWb - 0.03 })).toBe(false);
  expect(told({ dryingAgent: !picture.request.swath.dryingAgent })).toBe(
    field.habit?.dryingAgent === undefined,
  );
  expect(told({}, option.routes.find((one) => one !== route) ?? null)).toBe(false);
  // What the cut says of itself goes before its field's habit.
  expect(isAsMade({ ...cut, habit: { coveredFraction: 0.31 } }, field, picture, route)).toBe(false);
});

test("a forecast is of the hour it was issued or had, and of none before the readings that it knows", () => {
  const nowMs = Date.parse("2026-07-02T12:00:00Z");
  const of = (series: object, readCuts?: Picture["request"]["readCuts"]) =>
    issuedUtcOf(
      {
        source: { ...source, series: { ...source.series, ...series } },
        request: { ...picture.request, readCuts },
      },
      nowMs,
    );
  const [issuedUtc, fetchedUtc] = ["2026-07-02T06:00:00Z", "2026-07-02T09:00:00Z"];
  expect(of({ issuedUtc, fetchedUtc })).toBe("2026-07-02T06:00:00.000Z");
  expect(of({ issuedUtc: null, fetchedUtc })).toBe("2026-07-02T09:00:00.000Z");
  expect(of({ issuedUtc: null, fetchedUtc: null })).toBe("2026-07-02T12:00:00.000Z");
  const readings = [{ atUtc: "2026-07-02T11:00:00Z", method: "oven" as const, moistureWb: 0.4 }];
  expect(of({ issuedUtc }, [{ cutUtc: "2026-07-01T14:00:00Z", readings }])).toBe("2026-07-02T11:00:01.000Z");
});
