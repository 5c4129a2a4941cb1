import { describe, expect, test } from "vitest";
import {
  type BookDocs,
  type BookKind,
  type CutDoc,
  DUE,
  dueWork,
  type Entry,
  type LotDoc,
} from "../../../model/book/index.ts";

const NOW = "2026-07-01T12:00:00Z";

function entry<K extends BookKind>(id: string, doc: BookDocs[K], revision = 1): Entry<K> {
  return { id, revision, createdUtc: NOW, changedUtc: NOW, deleted: false, doc };
}

const SITE = entry<"sites">("s", {
  name: "Home",
  latitude: 44.3,
  longitude: -98.2,
  elevationM: 400,
  timeZone: "America/Chicago",
});
const field = (more: Partial<BookDocs["fields"]> = {}) =>
  entry<"fields">("f", { name: "Creek", siteId: "s", areaHa: 12, crop: "alfalfa", ...more });
const cut = (more: Partial<CutDoc>) => entry<"cuts">("c", { fieldId: "f", crop: "alfalfa", ...more });
const lot = (more: Partial<LotDoc>) =>
  entry<"lots">("l", {
    name: "Lot",
    fieldId: "f",
    crop: "alfalfa",
    route: "dry-hay",
    storedUtc: NOW,
    ...more,
  });

interface Farm {
  readonly now?: string;
  readonly days?: number;
  readonly fields?: readonly Entry<"fields">[];
  readonly cuts?: readonly Entry<"cuts">[];
  readonly lots?: readonly Entry<"lots">[];
}

function due({ now = NOW, days = 14, fields = [field()], cuts = [], lots = [] }: Farm) {
  return dueWork({ nowUtcMs: Date.parse(now), days, sites: [SITE], fields, cuts, lots });
}

/** A lot without the reminder that nobody has planned a test. */
const tested = { results: [{ atUtc: NOW }] };

describe("cuts", () => {
  test("planned work is told until it is done, on the farm's day", () => {
    const plan = cut({
      plannedUtc: "2026-07-02T03:00:00Z",
      operations: [
        { kind: "ted", plannedUtc: "2026-07-02T15:00:00Z" },
        { kind: "rake", plannedUtc: "2026-06-30T15:00:00Z" },
        { kind: "bale", plannedUtc: "2026-07-03T18:00:00Z", doneUtc: "2026-07-03T18:00:00Z" },
      ],
    });
    const items = due({ cuts: [plan] });
    expect(items.map(({ id, day, overdue }) => [id, day, overdue])).toEqual([
      ["rake.c.1", "2026-06-30", true],
      ["mow.c", "2026-07-01", false],
      ["turn.c.0", "2026-07-02", false],
    ]);
    expect(due({ cuts: [{ ...plan, doc: { ...plan.doc, closedUtc: NOW } }] })).toEqual([]);
  });

  test("film is on within 12 hours of the end of baling (published, the stricter)", () => {
    const baled = cut({
      cutUtc: "2026-06-30T15:00:00Z",
      route: "wrapped-bales",
      operations: [{ kind: "bale", doneUtc: "2026-07-01T08:00:00Z", doneEndUtc: "2026-07-01T10:00:00Z" }],
    });
    const [wrap] = due({ cuts: [baled] });
    expect(wrap).toMatchObject({ work: "wrap", byUtc: "2026-07-01T22:00:00Z", overdue: false });
    // Chicago is five hours behind in July.
    expect(wrap?.text).toContain("Film on by 2026-07-01 17:00.");
    expect(wrap?.text).not.toContain("Z");
    const [late] = due({ cuts: [baled], now: "2026-07-01T23:00:00Z" });
    expect(late).toMatchObject({ work: "wrap", overdue: true });
    expect(late?.text).toContain("butyric acid is likely");
    const wrapped = {
      ...baled.doc,
      operations: [...(baled.doc.operations ?? []), { kind: "wrap", doneUtc: NOW } as const],
    };
    expect(due({ cuts: [{ ...baled, doc: wrapped }] })).toEqual([]);
  });
});

describe("more than one baling", () => {
  const of = (...operations: NonNullable<CutDoc["operations"]>) =>
    cut({ cutUtc: "2026-06-29T15:00:00Z", route: "wrapped-bales", operations });
  const film = (one: Entry<"cuts">, lots: readonly Entry<"lots">[] = []) =>
    due({ cuts: [one], lots }).flatMap(({ work, byUtc }) => (work === "wrap" ? [byUtc] : []));
  const baled = {
    kind: "bale",
    doneUtc: "2026-07-01T08:00:00Z",
    doneEndUtc: "2026-07-01T12:00:00Z",
  } as const;
  const early = { kind: "bale", doneUtc: "2026-06-30T08:00:00Z" } as const;

  test("each baling has its film: 12 hours from its own end, done before planned", () => {
    const planned = { kind: "bale", plannedUtc: "2026-07-03T15:00:00Z" } as const;
    const items = due({ cuts: [of(planned, baled)] }).filter(({ work }) => work === "wrap");
    expect(items.map(({ byUtc }) => byUtc)).toEqual(["2026-07-02T00:00:00Z", "2026-07-04T03:00:00Z"]);
    expect(items[0]?.text).toContain("Baled 2026-07-01 07:00. Film on by 2026-07-01 19:00.");
    expect(new Set(items.map(({ id }) => id)).size).toBe(2);
  });

  test("wrapping covers what was baled by then, and nothing that was baled after it", () => {
    const wrapped = { kind: "wrap", doneUtc: "2026-06-30T12:00:00Z" } as const;
    expect(film(of(early, wrapped))).toEqual([]);
    expect(film(of(early, wrapped, baled))).toEqual(["2026-07-02T00:00:00Z"]);
    // Begun while the baler went on; finished before it.
    expect(film(of(baled, { kind: "wrap", doneUtc: "2026-07-01T09:00:00Z" }))).toEqual([]);
    const short = {
      kind: "wrap",
      doneUtc: "2026-07-01T09:00:00Z",
      doneEndUtc: "2026-07-01T10:00:00Z",
    } as const;
    expect(film(of(baled, short))).toHaveLength(1);
  });

  test("a lot of the first baling hides nothing of the second", () => {
    const first = lot({ cutId: "c", storedUtc: "2026-06-30T09:00:00Z", ...tested });
    expect(film(of(early, baled), [first])).toEqual(["2026-07-02T00:00:00Z"]);
  });
});

test("what is cut and has no work planned is to be brought in or closed", () => {
  const items = due({ cuts: [cut({ cutUtc: "2026-06-27T15:00:00Z" })] });
  expect(items).toMatchObject([
    { work: "bring-in", title: "Creek: bring it in or close it", day: "2026-06-30", overdue: true },
  ]);
  const bale = { kind: "bale", plannedUtc: "2026-07-02T15:00:00Z" } as const;
  expect(due({ cuts: [cut({ cutUtc: NOW, operations: [bale] })] }).map(({ work }) => work)).toEqual(["bale"]);
  expect(due({ cuts: [cut({ cutUtc: NOW, closedUtc: NOW })] })).toEqual([]);
  expect(due({ cuts: [cut({ plannedUtc: "2026-07-02T15:00:00Z" })] }).map(({ work }) => work)).toEqual([
    "mow",
  ]);
});

describe("what was removed", () => {
  const plan = cut({ plannedUtc: "2026-07-02T03:00:00Z" });

  test("a removed place keeps the clock of what is on it; a cut of a removed field stays due under its name", () => {
    const elsewhere = { ...SITE, id: "s2", doc: { ...SITE.doc, timeZone: "Europe/Paris" } };
    const gone = { ...SITE, deleted: true };
    const cuts = [plan];
    const asked = { nowUtcMs: Date.parse(NOW), days: 14, cuts, lots: [] };
    const onGone = dueWork({ ...asked, sites: [gone, elsewhere], fields: [field()] });
    expect(onGone[0]).toMatchObject({ timeZone: "America/Chicago", day: "2026-07-01" });
    const ofGone = dueWork({ ...asked, sites: [SITE], fields: [{ ...field(), deleted: true }] });
    expect(ofGone[0]).toMatchObject({ title: "Creek: mow", timeZone: "America/Chicago" });
    expect(due({ cuts, fields: [] })[0]?.title).toBe("A field that is gone: mow");
  });

  test("where no clock is known that is said", () => {
    const [mow] = dueWork({
      nowUtcMs: Date.parse(NOW),
      days: 14,
      sites: [],
      fields: [field()],
      cuts: [plan],
      lots: [],
    });
    expect(mow).toMatchObject({ timeZone: "UTC" });
    expect(mow?.text).toContain("those of UTC");
  });
});

describe("labels", () => {
  const sprays = (before: "cutting" | "feeding") =>
    [{ product: "P", appliedUtc: "2026-06-25T15:00:00Z", intervalDays: 10, before }] as const;

  test("a cut inside the interval before cutting is cautioned up to the first day that is allowed", () => {
    const at = (plannedUtc: string) =>
      due({ fields: [field({ sprays: sprays("cutting") })], cuts: [cut({ plannedUtc })] }).find(
        ({ work }) => work === "mow",
      )?.text;
    expect(at("2026-07-04T15:00:00Z")).toContain("P, 10 days before cutting, first day to cut 2026-07-05");
    expect(at("2026-07-05T15:00:00Z")).not.toContain("Inside");
  });

  test("a lot opened inside the interval before feeding is cautioned; what was sprayed after it was stored is not on it", () => {
    const opening = (storedUtc: string) =>
      due({
        fields: [field({ sprays: sprays("feeding") })],
        lots: [lot({ storedUtc, openUtc: "2026-07-03T15:00:00Z", ...tested })],
      }).find(({ work }) => work === "open")?.text;
    expect(opening("2026-06-28T15:00:00Z")).toContain("first day to feed 2026-07-05");
    expect(opening("2026-06-20T15:00:00Z")).not.toContain("Inside");
  });
});

describe("lots", () => {
  test("wrapped bales are opened six weeks after wrapping; sorghum types after eight; opened ones not again", () => {
    const wrapped = lot({
      route: "wrapped-bales",
      storedUtc: "2026-06-01T15:00:00Z",
      wrappedUtc: "2026-06-01T19:00:00Z",
      ...tested,
    });
    const [open] = due({ lots: [wrapped] });
    // 1 June + 42 days.
    expect(open).toMatchObject({ work: "open", day: "2026-07-13", allDay: true, overdue: false });
    const sorghum = { ...wrapped, doc: { ...wrapped.doc, crop: "sorghum-sudan" } as const };
    expect(due({ lots: [sorghum] })).toEqual([]);
    expect(due({ lots: [sorghum], days: 28 })[0]).toMatchObject({ work: "open", day: "2026-07-27" });
    expect(due({ lots: [{ ...wrapped, doc: { ...wrapped.doc, openedUtc: NOW } }] })).toEqual([]);
    const early = { ...wrapped, doc: { ...wrapped.doc, openUtc: "2026-07-03T15:00:00Z" } };
    expect(due({ lots: [early] })[0]?.text).toContain("over on 2026-07-13 only");
  });

  test("a filled silo: keep out for three weeks, open after four", () => {
    const silo = lot({ route: "wilted-chop", storedUtc: "2026-06-20T15:00:00Z", ...tested });
    expect(due({ lots: [silo], days: 20 }).map(({ work, day }) => [work, day])).toEqual([
      ["keep-out", "2026-06-20"],
      ["open", "2026-07-18"],
    ]);
  });

  // Nitrogen dioxide forms within hours, peaks on day 1 to 3, keep out for 3 weeks (Penn State).
  test("silo gas is told from the hour of filling until it is over, and as a danger", () => {
    const silo = lot({ route: "wilted-chop", storedUtc: "2026-06-30T15:00:00Z", ...tested });
    const gasAt = (now: string) => due({ lots: [silo], now }).find(({ work }) => work === "keep-out");
    expect(gasAt("2026-06-30T16:00:00Z")).toMatchObject({
      danger: "gas",
      overdue: false,
      byUtc: "2026-07-21T15:00:00Z",
    });
    expect(gasAt("2026-07-01T12:00:00Z")?.text).toContain("worst on the first 3 days: now");
    expect(gasAt("2026-07-10T12:00:00Z")?.text).toContain("Keep out until 2026-07-21");
    expect(gasAt("2026-07-21T12:00:00Z")).toBeDefined();
    expect(gasAt("2026-07-22T12:00:00Z")).toBeUndefined();
    // Chopped, and no lot of it yet; closed or not.
    const chopped = cut({
      cutUtc: NOW,
      closedUtc: NOW,
      route: "wilted-chop",
      operations: [{ kind: "chop", doneUtc: NOW }],
    });
    expect(due({ cuts: [chopped] })).toMatchObject([{ work: "keep-out", danger: "gas" }]);
    // Its silo tells of the gas instead, once.
    const filled = lot({ cutId: "c", route: "wilted-chop", ...tested });
    const gas = due({ cuts: [chopped], lots: [filled] }).filter(({ work }) => work === "keep-out");
    expect(gas.map(({ lotId }) => lotId)).toEqual(["l"]);
  });

  test("opening a lot inside the weeks of gas, with results awaited or never asked for, says so", () => {
    const silo = lot({
      route: "wilted-chop",
      crop: "forage-sorghum",
      storedUtc: "2026-06-30T15:00:00Z",
      openUtc: "2026-07-04T15:00:00Z",
      tests: [{ id: "t", what: "nitrate", sentUtc: NOW, expectedUtc: "2026-07-08T15:00:00Z" }],
    });
    const open = due({ lots: [silo] }).find(({ work }) => work === "open");
    expect(open?.text).toContain("Silo gas: keep out until 2026-07-21.");
    expect(open?.text).toContain("The result of nitrate is awaited on 2026-07-08.");
    expect(open?.text).toContain("Not tested for prussic acid.");
    expect(open?.text).toContain("fermenting are over on 2026-08-25 only");
  });

  test("what is open and not tested is overdue and a danger, whatever was planned", () => {
    const fed = lot({
      route: "wilted-chop",
      crop: "forage-sorghum",
      storedUtc: "2026-05-01T15:00:00Z",
      openedUtc: "2026-06-30T15:00:00Z",
    });
    expect(due({ lots: [fed] })).toMatchObject([
      {
        work: "send-sample",
        title: "Lot: send a sample for nitrate and prussic acid",
        overdue: true,
        danger: "feed",
      },
    ]);
    const planned = {
      ...fed.doc,
      tests: [{ id: "t", what: "nitrate", dueUtc: "2026-07-20T15:00:00Z" }],
    } as const;
    expect(due({ lots: [{ ...fed, doc: planned }] }).find(({ id }) => id.endsWith(".t"))).toMatchObject({
      day: "2026-06-30",
      overdue: true,
      danger: "feed",
    });
  });

  test("sorghum hay is asked about nitrate and prussic acid until papers say both; a moisture says neither", () => {
    const nitrate = { value: 800, ion: "NO3-N", unit: "ppm", basis: "dm" } as const;
    const prussicAcid = { value: 100, unit: "ppm", basis: "dm" } as const;
    const asked = (results: LotDoc["results"], crop: LotDoc["crop"] = "sudangrass") =>
      due({ lots: [lot({ crop, results })] }).find(({ work }) => work === "send-sample")?.title;
    expect(asked([{ atUtc: NOW, moistureWb: 0.15 }])).toBe("Lot: send a sample for nitrate and prussic acid");
    expect(asked([{ atUtc: NOW, nitrate }])).toBe("Lot: send a sample for prussic acid");
    expect(
      asked([
        { atUtc: NOW, nitrate },
        { atUtc: NOW, prussicAcid },
      ]),
    ).toBeUndefined();
    expect(asked([{ atUtc: NOW, moistureWb: 0.15 }], "corn")).toBe("Lot: send a sample for nitrate");
    expect(asked([{ atUtc: NOW, moistureWb: 0.15 }], "alfalfa")).toBe("Lot: send a sample");
  });

  test("new hay is probed daily for six weeks; a hot stack every two hours, and on past them", () => {
    const hay = lot({ storedUtc: "2026-06-28T15:00:00Z", ...tested });
    expect(due({ lots: [hay] })[0]).toMatchObject({ work: "probe", overdue: true, repeat: { everyH: 24 } });
    const probed = (tempC: number, atUtc: string) => ({
      ...hay,
      doc: { ...hay.doc, heating: [{ atUtc, tempC }] },
    });
    const [steady] = due({ lots: [probed(40, "2026-07-01T10:00:00Z")] });
    expect(steady).toMatchObject({ atUtc: "2026-07-02T10:00:00Z", overdue: false });
    // 66 °C is 150 °F: open the stack, probe every 2 hours.
    const [hot] = due({ lots: [probed(66, "2026-07-01T11:00:00Z")] });
    expect(hot).toMatchObject({ atUtc: "2026-07-01T13:00:00Z", repeat: { everyH: 2 } });
    expect(hot?.text).toContain("open the stack");
    expect(hot?.repeat?.untilUtc).toBe("2026-07-02T12:00:00Z");
    const later = "2026-08-20T12:00:00Z";
    expect(due({ lots: [hay], now: later })).toEqual([]);
    expect(due({ lots: [probed(66, "2026-08-20T11:00:00Z")], now: later })).toHaveLength(1);
    expect(due({ lots: [{ ...hay, doc: { ...hay.doc, finishedUtc: NOW } }] })).toEqual([]);
  });

  test("a sample is sent, its result awaited, and then nothing more is asked", () => {
    const test = { id: "t", what: "nitrate", dueUtc: "2026-07-03T15:00:00Z" } as const;
    const of = (more: object) =>
      lot({
        route: "wrapped-bales",
        wrappedUtc: NOW,
        openUtc: "2026-12-01T12:00:00Z",
        tests: [{ ...test, ...more }],
      });
    expect(due({ lots: [of({})] })[0]).toMatchObject({ id: "send-sample.l.t", day: "2026-07-03" });
    const [awaited] = due({ lots: [of({ sentUtc: "2026-06-29T15:00:00Z" })] });
    expect(awaited).toMatchObject({ work: "result", day: "2026-07-06" });
    expect(awaited?.source).toBe(DUE.laboratoryDays.source);
    expect(due({ lots: [of({ sentUtc: NOW, resultUtc: NOW })] })).toEqual([]);
  });

  test("a lot nobody thought to test is named", () => {
    const work = due({ lots: [lot({})] }).map(({ id }) => id);
    expect(work).toContain("send-sample.l");
  });
});

test("a label's interval is over on the day that the user's days give, across a change of the clock", () => {
  const sprays = [
    { product: "P", appliedUtc: "2026-10-25T15:00:00Z", intervalDays: 10, before: "cutting" },
  ] as const;
  const [over] = due({ fields: [field({ sprays })], now: "2026-10-30T12:00:00Z" });
  // The clock goes back on 1 November: midnight is an hour later in UTC.
  expect(over).toMatchObject({ id: "spray-over.f.0", day: "2026-11-04", atUtc: "2026-11-04T06:00:00Z" });
  expect(due({ fields: [field({ sprays })], now: "2026-11-05T12:00:00Z" })).toEqual([]);
});

describe("what must not be lost sight of", () => {
  const dangers = (farm: Farm) => due(farm).map(({ danger }) => danger);

  test("a cool edge probed after midnight hides no hot middle; a hot stack of any age or route is told", () => {
    const heating = [
      { atUtc: "2026-06-30T23:50:00Z", tempC: 85, place: "deep" },
      { atUtc: "2026-07-01T00:05:00Z", tempC: 30, place: "edge" },
    ];
    expect(dangers({ lots: [lot({ ...tested, heating })] })).toEqual(["fire"]);
    const noPlace = heating.map(({ atUtc, tempC }) => ({ atUtc, tempC }));
    expect(dangers({ lots: [lot({ ...tested, heating: noPlace })] })).toEqual(["fire"]);
    const old = { ...tested, storedUtc: "2026-03-01T12:00:00Z", heating };
    expect(dangers({ lots: [lot(old)] })).toEqual(["fire"]);
    expect(dangers({ lots: [lot({ ...old, route: "wrapped-bales", wrappedUtc: old.storedUtc })] })).toContain(
      "fire",
    );
  });

  test("bales of the headland do not take the gas of what was chopped off the list", () => {
    const chopped = cut({
      route: "wilted-chop",
      cutUtc: "2026-06-29T12:00:00Z",
      operations: [{ kind: "chop", doneUtc: "2026-06-30T12:00:00Z" }],
    });
    const bales = lot({ ...tested, cutId: "c", storedUtc: "2026-06-30T18:00:00Z" });
    expect(dangers({ cuts: [chopped], lots: [bales] })).toContain("gas");
    const silo = lot({ ...tested, cutId: "c", route: "wilted-chop", storedUtc: "2026-06-30T18:00:00Z" });
    expect(dangers({ cuts: [chopped], lots: [silo] }).filter((danger) => danger === "gas")).toHaveLength(1);
  });

  test("a paper without the figure, or of years before, answers no nitrate", () => {
    const open = { crop: "sudangrass", openedUtc: NOW } as const;
    const figure = { value: 400, ion: "NO3-N", unit: "ppm", basis: "dm" } as const;
    const acid = { value: 100, unit: "ppm", basis: "dm" } as const;
    const asked = (doc: Partial<LotDoc>) => dangers({ lots: [lot({ ...open, ...doc })] }).includes("feed");
    const tests = [{ id: "t1", what: "nitrate", sentUtc: "2026-06-20T12:00:00Z" }] as const;
    expect(
      asked({ tests, results: [{ atUtc: NOW, testId: "t1", moistureWb: 0.5, prussicAcid: acid }] }),
    ).toBe(true);
    expect(asked({ results: [{ atUtc: NOW, nitrate: figure, prussicAcid: acid }] })).toBe(false);
    expect(asked({ results: [{ atUtc: "2024-07-01T12:00:00Z", nitrate: figure, prussicAcid: acid }] })).toBe(
      true,
    );
  });
});
