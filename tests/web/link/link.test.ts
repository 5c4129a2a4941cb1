import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { ROUTE_CATALOGUE, ROUTES, type RouteKey } from "../../../model/harvest/index.ts";
import { linkOf } from "../../../web/link/link-of.ts";
import { LINK_CHOICES, LONGEST } from "../../../web/link/link-words.ts";
import { readLink } from "../../../web/link/read-link.ts";
import { weatherMark } from "../../../web/link/weather-mark.ts";
import type { PlaceTexts } from "../../../web/place/place-texts.ts";
import {
  DEMO_INPUTS,
  GATE_KEYS,
  type Inputs,
  type RouteChoice,
  TEXT_FIELDS,
  type TextField,
  type Typed,
} from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import { withCrop } from "../../../web/state/with-crop.ts";
import type { WeatherSource } from "../../../web/weather/source.ts";
import { readSample } from "../../support/samples.ts";

const NOWHERE: PlaceTexts = {
  latitude: "",
  longitude: "",
  elevationM: "",
  windHeightM: "",
  timeZone: "Europe/Vienna",
};
const first: WeatherSource = { kind: "sample", ...readSample("showers-every-other-day") };
const other: WeatherSource = { kind: "sample", ...readSample("settled-dry") };
const own: WeatherSource = { kind: "upload", name: "own.csv", series: other.series, missing: 0 };
const demo = { inputs: DEMO_INPUTS, source: first, selection: null, place: NOWHERE };

const TYPED_AS_IT_IS = new Set(
  Object.entries(TEXT_FIELDS).flatMap(([name, quantity]) => (quantity ? [name] : [])),
);
const anyText = fc.string({ maxLength: LONGEST.text - 20, unit: "grapheme" });
const nearNumber = fc.double({ min: 0.1, max: 400, noNaN: true }).map((x) => x.toFixed(2));
const typed = (field: TextField): fc.Arbitrary<Typed> =>
  fc.record({
    text: fc.oneof(fc.constant(DEMO_INPUTS.texts[field].text), nearNumber, anyText, fc.constant("7~us")),
    // Where a field has no unit, the system it was typed in means nothing.
    units: TYPED_AS_IT_IS.has(field)
      ? fc.constantFrom("metric" as const, "us" as const)
      : fc.constant("metric" as const),
  });
const routeChoice = (route: RouteKey): fc.Arbitrary<RouteChoice> =>
  fc.record({
    on: fc.boolean(),
    package: fc.constantFrom(null, ...ROUTE_CATALOGUE[route].packages),
    store: fc.constantFrom(null, ...ROUTE_CATALOGUE[route].stores),
  });
const inputs: fc.Arbitrary<Inputs> = fc.record({
  fieldName: fc.string({ maxLength: LONGEST.fieldName, unit: "grapheme-ascii" }),
  crop: fc.constantFrom(...LINK_CHOICES.crop),
  conditioning: fc.constantFrom(...LINK_CHOICES.conditioning),
  soil: fc.constantFrom(...LINK_CHOICES.soil),
  dryingAgent: fc.boolean(),
  yieldBy: fc.constantFrom(...LINK_CHOICES.yieldBy),
  ted: fc.constantFrom(...LINK_CHOICES.ted),
  rake: fc.constantFrom(...LINK_CHOICES.rake),
  hayStore: fc.constantFrom(...LINK_CHOICES.hayStore),
  siloCover: fc.constantFrom(...LINK_CHOICES.siloCover),
  hayFeeding: fc.constantFrom(...LINK_CHOICES.hayFeeding),
  grazed: fc.constantFrom(...LINK_CHOICES.grazed),
  drought: fc.constantFrom(...LINK_CHOICES.drought),
  settled: fc.subarray([...GATE_KEYS]),
  texts: fc.record(
    Object.fromEntries(Object.keys(TEXT_FIELDS).map((name) => [name, typed(name as TextField)])),
  ) as fc.Arbitrary<Inputs["texts"]>,
  routes: fc.record(Object.fromEntries(ROUTES.map((route) => [route, routeChoice(route)]))) as fc.Arbitrary<
    Inputs["routes"]
  >,
});
/** Inputs that the page answers: each field by chance the demonstration's, so that many are. */
const answered = inputs
  .chain((wild) => {
    const names = Object.keys(TEXT_FIELDS) as TextField[];
    return fc.subarray(names).map((kept) => ({
      ...wild,
      texts: { ...DEMO_INPUTS.texts, ...Object.fromEntries(kept.map((name) => [name, wild.texts[name]])) },
    }));
  })
  .map((wild) => {
    const { errors } = readInputs(wild);
    const mended = Object.keys(errors).filter((name) => name in TEXT_FIELDS) as TextField[];
    const back = Object.fromEntries(mended.map((name) => [name, DEMO_INPUTS.texts[name]]));
    return {
      ...wild,
      yieldBy: "tonnes" as const,
      texts: { ...wild.texts, ...back },
      routes: errors.routes ? DEMO_INPUTS.routes : wild.routes,
    };
  })
  .filter((wild) => readInputs(wild).question !== null);

describe("what a link says", () => {
  test("the demonstration as it opens is the plain address; sent on, it names its weather", () => {
    expect(linkOf(demo)).toBe("");
    expect(linkOf(demo, true)).toBe("?weather=showers-every-other-day");
    expect(readLink("")).toMatchObject({ given: false, inputs: DEMO_INPUTS, problems: [] });
  });

  test("only what differs, in the units it was typed in, to be read by people", () => {
    const texts = { ...DEMO_INPUTS.texts, areaHa: { text: "15.8", units: "us" as const } };
    const state = {
      ...demo,
      source: other,
      selection: { optionId: "2026-07-02T14:00:00Z/swath", route: "wrapped-bales" as const },
      inputs: { ...DEMO_INPUTS, crop: "drought-corn" as const, texts },
    };
    expect(linkOf(state)).toBe(
      "?weather=settled-dry&row=2026-07-02T14:00:00Z/swath&route=wrapped-bales&crop=drought-corn&moisturePct=78&stubbleCm=8&areaHa=15.8%7Eus&routes=dry-hay,wrapped-bales,wilted-chop",
    );
    expect(readLink(linkOf(state))).toEqual({
      given: true,
      inputs: state.inputs,
      sampleId: "settled-dry",
      ownMark: null,
      forecast: null,
      selection: state.selection,
      compare: null,
      place: {},
      problems: [],
    });
  });

  test("a later window of the row, and what its cut is compared with", () => {
    const selection = {
      optionId: "2026-07-02T14:00:00Z/swath",
      route: "dry-hay" as const,
      windowUtc: "2026-07-06T16:00:00Z",
    };
    const search = linkOf({ ...demo, selection, compare: "windrow" });
    expect(search).toBe(
      "?weather=showers-every-other-day&row=2026-07-02T14:00:00Z/swath&route=dry-hay&window=2026-07-06T16:00:00Z&compare=windrow",
    );
    expect(readLink(search)).toMatchObject({ selection, compare: "windrow", problems: [] });
  });

  test("without routes it means those of its crop, with them exactly them", () => {
    const on = (search: string) => {
      const { routes } = readLink(search).inputs;
      return ROUTES.filter((route) => routes[route].on).join();
    };
    expect(on("?crop=drought-corn")).toBe("dry-hay,wrapped-bales,wilted-chop,direct-chop");
    expect(on("?crop=drought-corn&routes=dry-hay")).toBe("dry-hay");
    expect(on("?crop=sudangrass")).toBe("dry-hay,wrapped-bales,wilted-chop");
    const inputs = withCrop(DEMO_INPUTS, "corn");
    expect(linkOf({ ...demo, inputs })).not.toMatch(/routes/);
  });

  test("without a moisture and a stubble it means those its crop is commonly cut at", () => {
    const { moisturePct, stubbleCm } = readLink("?crop=drought-corn").inputs.texts;
    expect([moisturePct.text, stubbleCm.text]).toEqual(["80", "30"]);
    expect(readLink("?crop=drought-corn&moisturePct=78").inputs.texts.moisturePct.text).toBe("78");
    const grown = withCrop(DEMO_INPUTS, "drought-corn");
    expect(linkOf({ ...demo, inputs: grown })).toMatch(/^\?weather=[a-z-]+&crop=drought-corn$/);
    expect(readLink(linkOf({ ...demo, inputs: grown })).inputs).toEqual(grown);
  });

  test("an own file is only marked: the same hours have the same mark, others another", () => {
    const link = readLink(linkOf({ ...demo, source: own }));
    expect(link.ownMark).toBe(weatherMark(structuredClone(own.series)));
    expect(link.ownMark).toMatch(/^[0-9a-f]{8}$/);
    expect(link.ownMark).not.toBe(weatherMark(first.series));
    expect(link.sampleId).toBeNull();
  });

  test("a place goes with it once one was typed", () => {
    const place = { ...NOWHERE, latitude: "48,2", longitude: "16.4", timeZone: "Europe/Vienna" };
    const link = readLink(linkOf({ ...demo, place }));
    expect(link.place).toEqual({ latitude: "48,2", longitude: "16.4", timeZone: "Europe/Vienna" });
  });

  test("a typed comma goes out as a point, so that every language reads it alike", () => {
    const texts = { ...DEMO_INPUTS.texts, areaHa: { text: "1,500", units: "metric", marks: ",." } as const };
    const search = linkOf({ ...demo, inputs: { ...DEMO_INPUTS, texts } });
    expect(search).toBe("?weather=showers-every-other-day&areaHa=1.500");
    expect(readInputs(readLink(search, { locale: "de-DE" }).inputs).question?.field.areaHa).toBe(1.5);
  });

  test("a place in feet goes and comes as it was typed, without dust", () => {
    const place = {
      ...NOWHERE,
      latitude: "39.46",
      longitude: "-118.78",
      elevationM: "1207.01",
      windHeightM: "2.99",
    };
    const search = linkOf({ ...demo, place, units: "us" });
    expect(search).toMatch(/elevationM=3960%7Eus&windHeightM=9\.8%7Eus/);
    expect(readLink(search).place).toMatchObject({ elevationM: "1207.01", windHeightM: "2.99" });
    expect(readLink("?windHeightM=2.9870400000000004").place).toEqual({ windHeightM: "2.99" });
  });

  test("what a link's field held stands by it until something is typed", () => {
    const { inputs } = readLink("?swathWidthM=abc");
    expect(inputs.texts.swathWidthM).toEqual({
      ...DEMO_INPUTS.texts.swathWidthM,
      told: `In the link: Got "abc", must be a number in digits. The demo's stays.`,
    });
  });

  test("there and back gives the same, whatever was set", () => {
    let answeredRuns = 0;
    fc.assert(
      fc.property(answered, fc.constantFrom(first, other), (set, source) => {
        answeredRuns++;
        const link = readLink(linkOf({ ...demo, inputs: set, source }, true));
        expect(link.problems).toEqual([]);
        // A comma that nobody could read stays one, marked as no decimal one.
        const texts = Object.entries(link.inputs.texts).map(([field, { marks, ...typed }]) => [field, typed]);
        expect({ ...link.inputs, texts: Object.fromEntries(texts) }).toEqual(set);
        expect(link.sampleId).toBe(source.kind === "sample" ? source.id : null);
      }),
      { numRuns: 300, seed: 20260701 },
    );
    expect(answeredRuns).toBeGreaterThanOrEqual(300);
  });
});

describe("a link that is wrong still opens", () => {
  test.each([
    ["?crop=wheat", `The link's crop: "wheat" is not known. The demo's stays.`],
    ["?route=walk&row=x", `The link's route: "walk" is not known. The demo's stays.`],
    ["?row=<b>", `The link's row: "<b>" is not known. The best row is shown.`],
    ["?route=dry-hay", "The link's route: It stands without a row. The best row is shown."],
    ["?window=2026-07-06T16:00:00Z", "The link's window: It stands without a row. The best row is shown."],
    [
      "?row=x&window=2026-07-06T16:00:00Z",
      "The link's window: It stands without a route. The route's first window is shown.",
    ],
    [
      "?row=x&route=dry-hay&window=soon",
      `The link's window: "soon" is not known. The route's first window is shown.`,
    ],
    ["?compare=wheat", `The link's comparison: "wheat" is not known. The demo's stays.`],
    ["?crop=alfalfa&crop=corn", "The link's crop: It stands twice. The first is used."],
    ["?__proto__=1", `The link's part "__proto__" is not known. It is left out.`],
    ["?constructor=x", `The link's part "constructor" is not known. It is left out.`],
    ["?crop=__proto__", `The link's crop: "__proto__" is not known. The demo's stays.`],
    ["?crop=%E0%A4%A", `The link's crop: "\uFFFD%A" is not known. The demo's stays.`],
    ["?weather=../../etc/passwd", `The link's weather: "../../etc/passwd" is not known. The demo's stays.`],
    [
      `?crop=${"x".repeat(10_240)}`,
      "The link's crop: Got 10240 characters, must be at most 120. The demo's stays.",
    ],
    [
      `?${"y".repeat(10_240)}=1`,
      `The link's part "${"y".repeat(40)}..." (10240 characters) is not known. It is left out.`,
    ],
    ["?areaHa=1,5", /link's area: Got "1,5": here a comma parts thousands.* Type 1\.5, with a point\./],
    [
      "?moisturePct=0.78",
      /link's moisture at cutting: Got 0\.78, must be .*Did you mean 78\? The demo's stays\./,
    ],
    ["?swathWidthM=abc", `The link's swath width: Got "abc", must be a number in digits. The demo's stays.`],
    ["?areaHa=", /link's area: Empty; a number is needed\. The demo's stays\./],
    ["?workFrom=20:00&workTo=20:00", /link's working hours: Got 20:00 for start and end/],
    ["?routes=", /link's routes: No route is ticked/],
    ["?routes=hay,dry-hay", `The link's routes: "hay" is not known. The demo's stays.`],
    ["?wrapped-bales.package=small-square", /package of wrapped bales: "small-square" is not known/],
    ["?grazing.store=bag", /store of grazing: "bag" is not known/],
    [
      "?yieldBy=bales",
      /link's fields make no whole question \(.*number of bales.*\)\. All of the demo's stay/,
    ],
    ["?latitude=444&longitude=1", /link's latitude: Got 444, .* It is left out\./],
    [
      `?field=${"x".repeat(300)}`,
      "The link's name of the field: Got 300 characters, must be at most 120. The demo's stays.",
    ],
  ])("%s", (search, said) => {
    const link = readLink(search);
    expect(link.problems.some((text) => (typeof said === "string" ? text === said : said.test(text)))).toBe(
      true,
    );
    expect(readInputs(link.inputs).question).not.toBeNull();
  });

  test("any text at all gives a page with a question, and nothing gets into the objects' own names", () => {
    const part = fc.tuple(
      fc.oneof(fc.constantFrom(...Object.keys(TEXT_FIELDS), "crop", "routes", "row", "__proto__"), anyText),
      anyText,
    );
    fc.assert(
      fc.property(
        fc.oneof(
          anyText,
          fc.array(part).map((parts) => parts.map((two) => two.join("=")).join("&")),
        ),
        (search) => {
          const link = readLink(`?${search}`);
          expect(readInputs(link.inputs).question).not.toBeNull();
          expect(Object.keys(link.inputs).sort()).toEqual(Object.keys(DEMO_INPUTS).sort());
        },
      ),
      { numRuns: 300, seed: 20260702 },
    );
    expect(Object.keys(Object.prototype)).toEqual([]);
  });

  test("a hundred parts are read and no more", () => {
    const search = Array.from({ length: 150 }, (_, i) => `p${i}=1`).join("&");
    expect(readLink(`?${search}`).problems[0]).toBe("The link has 150 parts; only the first 100 are read.");
  });
});
