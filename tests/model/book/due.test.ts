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
      ["keep-out-over", "2026-07-11"],
      ["open", "2026-07-18"],
    ]);
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
      lot({ route: "wrapped-bales", wrappedUtc: NOW, openedUtc: NOW, tests: [{ ...test, ...more }] });
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
