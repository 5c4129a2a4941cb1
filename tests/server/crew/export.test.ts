import { expect, test } from "vitest";
import { check } from "../../../server/check.ts";
import { type PlanToExport, planCalendar, planCsv } from "../../../server/crew/export.ts";
import { planToExport } from "../../../server/schemas/crew-export.ts";
import { crewPlanRequest } from "../../../server/schemas/crew-plan.ts";
import { fieldOf, readCalendar, textOf } from "../../support/crew/read-calendar.ts";

const STAMP = Date.UTC(2026, 9, 20, 12);
const LONG =
  "Bühlmühle; große Wiese über dem Bächlein, früher „Krähenwiese“ – 草地の北側の畑 🌾🌾🌾 second half, by the stream";
const plan: PlanToExport = {
  jobs: [
    {
      fieldId: "f1",
      op: "mow",
      machineId: "m",
      personId: "p",
      startUtc: "2026-10-24T08:00:00Z",
      endUtc: "2026-10-24T10:00:00Z",
    },
    {
      fieldId: "f1",
      op: "bale",
      machineId: "b",
      personId: "p",
      startUtc: "2026-10-26T12:00:00Z",
      endUtc: "2026-10-26T14:00:00Z",
    },
  ],
  revision: 3,
  timeZone: "Europe/Dublin",
  nowUtc: "2026-10-25T00:00:00Z",
  changes: [{ fieldId: "f2", op: "ted", fromUtc: "2026-10-25T11:00:00Z", toUtc: null }],
  names: { fields: { f1: LONG }, machines: { b: "=Baler" } },
};
const events = (text: string) => readCalendar(text).parts.filter(({ name }) => name === "VEVENT");

test("a calendar re-read by rule: names, times on the farm's clock across its change, states", () => {
  const root = readCalendar(planCalendar(plan, STAMP));
  expect([fieldOf(root, "VERSION"), root.name]).toEqual(["2.0", "VCALENDAR"]);
  const zone = root.parts.find(({ name }) => name === "VTIMEZONE");
  expect(zone && fieldOf(zone, "TZID")).toBe("Europe/Dublin");
  const onsets = zone?.parts.map(
    (part) => `${part.name} ${fieldOf(part, "DTSTART")} ${fieldOf(part, "TZOFFSETTO")}`,
  );
  // The clock of Dublin goes back on 25 October 2026 at 02:00 summer time.
  expect(onsets).toContain("STANDARD 20261025T020000 +0000");
  // A year before, what held first was summer time, and is called so.
  expect(onsets?.[0]).toMatch(/^DAYLIGHT 20251019T\d{6} \+0100$/);
  const [mow, bale, gone] = events(planCalendar(plan, STAMP));
  if (mow === undefined || bale === undefined || gone === undefined) throw new Error("three events");
  expect(textOf(mow, "SUMMARY")).toBe(`${LONG}: mowing`);
  const start = mow.properties.find(({ name }) => name === "DTSTART");
  expect([start?.params.TZID, start?.value]).toEqual(["Europe/Dublin", "20261024T090000"]);
  expect(fieldOf(bale, "DTSTART")).toBe("20261026T120000");
  expect(fieldOf(bale, "DTEND")).toBe("20261026T140000");
  expect([mow, bale, gone].map((event) => fieldOf(event, "STATUS"))).toEqual([
    "CONFIRMED",
    "TENTATIVE",
    "CANCELLED",
  ]);
  expect([mow, bale, gone].map((event) => fieldOf(event, "SEQUENCE"))).toEqual(["3", "3", "3"]);
  expect(fieldOf(mow, "DTSTAMP")).toBe("20261020T120000Z");
});

test("all that is said of the calendar itself stands before its first component, by registered names or X-", () => {
  const lines = planCalendar(plan, STAMP).split("\r\n");
  const first = lines.findIndex((line, i) => i > 0 && line.startsWith("BEGIN:"));
  expect(lines[first]).toBe("BEGIN:VTIMEZONE");
  expect(lines.slice(0, first)).toContain("X-WR-TIMEZONE:Europe/Dublin");
  expect(lines.filter((line) => line.startsWith("X-WR-TIMEZONE"))).toHaveLength(1);
  expect(lines.some((line) => line.startsWith("TIMEZONE-ID"))).toBe(false);
  expect(lines[lines.lastIndexOf("END:VTIMEZONE") + 1]).toBe("BEGIN:VEVENT");
  expect(() => readCalendar(["BEGIN:VCALENDAR", "X-A:1", "END:VCALENDAR", ""].join("\r\n"))).not.toThrow();
  const late = ["BEGIN:VCALENDAR", "BEGIN:VTIMEZONE", "END:VTIMEZONE", "X-A:1", "END:VCALENDAR", ""];
  expect(() => readCalendar(late.join("\r\n"))).toThrow(/after the first component/);
});

test("the same visit keeps its UID through revisions, and SEQUENCE rises", () => {
  const later = planCalendar({ ...plan, revision: 4, jobs: plan.jobs.toReversed() }, STAMP + 3_600_000);
  const sorted = (text: string, name: string) =>
    events(text)
      .map((event) => fieldOf(event, name))
      .sort();
  expect(sorted(later, "UID")).toEqual(sorted(planCalendar(plan, STAMP), "UID"));
  expect(new Set(sorted(later, "UID")).size).toBe(3);
  expect(sorted(later, "SEQUENCE")).toEqual(["4", "4", "4"]);
});

test.each(["UTC", "Asia/Kolkata", "Australia/Lord_Howe", "America/St_Johns"])(
  "times in %s read back to the same moment",
  (timeZone) => {
    const [mow] = events(planCalendar({ ...plan, timeZone }, STAMP));
    const value = (mow && fieldOf(mow, "DTSTART")) ?? "";
    const shown = new Intl.DateTimeFormat("sv-SE", { timeZone, dateStyle: "short", timeStyle: "medium" })
      .format(Date.UTC(2026, 9, 24, 8))
      .replaceAll(/[-:]/g, "")
      .replace(" ", "T");
    expect(value.replace("Z", "")).toBe(shown);
  },
);

test("a mowing that would lie is marked in calendar and table; a visit that fell out before stays cancelled", () => {
  const held: PlanToExport = {
    ...plan,
    nowUtc: "2026-10-20T00:00:00Z",
    left: [{ fieldId: "f1", why: "the only baler is away until Tue 27 Oct 08:00" }],
    changes: [],
    cancelled: [
      { fieldId: "f2", op: "ted", startUtc: "2026-10-25T11:00:00Z" },
      { fieldId: "f1", op: "mow", startUtc: "2026-10-23T08:00:00Z" },
    ],
  };
  const [mow, bale, gone, ...more] = events(planCalendar(held, STAMP));
  if (mow === undefined || bale === undefined || gone === undefined) throw new Error("three events");
  expect(more).toEqual([]);
  expect(textOf(mow, "SUMMARY")).toMatch(/: mowing \(do not mow, it would lie\)$/);
  expect(textOf(mow, "DESCRIPTION")).toContain("Not brought in: the only baler is away");
  expect(textOf(bale, "SUMMARY")).toMatch(/: baling \(in doubt, field not brought in\)$/);
  expect([fieldOf(gone, "STATUS"), textOf(gone, "SUMMARY")]).toEqual(["CANCELLED", "f2: tedding"]);
  expect(planCsv(held)).toContain('"do not mow, it would lie"');
  const risky = { ...plan, nowUtc: "2026-10-20T00:00:00Z", replay: [{ fieldId: "f1", atRisk: true }] };
  expect(planCsv(risky).trimEnd().split("\r\n")[1]).toMatch(/,at risk$/);
  expect(planCsv(plan).trimEnd().split("\r\n")[0]).toMatch(/,note$/);
});

test("the table: a line a visit, no cell a spreadsheet would run", () => {
  const lines = planCsv(plan).trimEnd().split("\r\n");
  expect(lines[0]).toContain("fieldId,field,op");
  expect(planCsv(plan)).toContain("'=Baler");
  expect(planCsv(plan)).toContain("2026-10-24 09:00");
});

test("a visit in the hour that the clock shows twice keeps its length", () => {
  const [mow] = plan.jobs;
  if (mow === undefined) throw new Error("a job");
  const night = { ...mow, startUtc: "2026-10-25T00:00:00Z", endUtc: "2026-10-25T01:00:00Z" };
  const [event] = events(planCalendar({ ...plan, jobs: [night], changes: [] }, STAMP));
  expect(event && [fieldOf(event, "DTSTART"), fieldOf(event, "DTEND")]).toEqual([
    "20261025T000000Z",
    "20261025T010000Z",
  ]);
});

test.each(["BEGIN:VEVENT", "a\nBEGIN:VEVENT\nb", "END:VCALENDAR"])(
  "a field called %j stands in a calendar as it is called",
  (name) => {
    const [job] = plan.jobs;
    if (job === undefined) throw new Error("a job");
    const night = { ...job, startUtc: "2026-10-25T00:30:00Z", endUtc: "2026-10-25T01:30:00Z" };
    const [mow, bale] = events(
      planCalendar(
        { ...plan, jobs: [job, { ...night, op: "bale" }], names: { fields: { f1: name } } },
        STAMP,
      ),
    );
    expect(mow && textOf(mow, "SUMMARY")).toBe(`${name}: mowing`);
    expect(bale && fieldOf(bale, "DTSTART")).toBe("20261025T003000Z");
  },
);

test("half a character is refused by name, and breaks no calendar that was kept with it", () => {
  const half = "f\ud83c";
  const [job] = plan.jobs;
  if (job === undefined) throw new Error("a job");
  const held = { ...plan, jobs: [{ ...job, fieldId: half }] };
  const outcome = check(planToExport, held);
  expect(outcome.ok ? [] : outcome.issues.map(({ path, code }) => [path, code])).toEqual([
    ["jobs[0].fieldId", "half-character"],
  ]);
  expect(check(planToExport, { ...plan, names: { fields: { f1: half } } }).ok).toBe(false);
  expect(events(planCalendar(held, STAMP))).toHaveLength(2);
});

test("control characters in names that were kept before they were refused do not come into a calendar", () => {
  const kept = { ...plan, names: { fields: { f1: "A\u0000B\u0007C" }, machines: { m: "M\u007fM" } } };
  const [mow] = events(planCalendar(kept, STAMP));
  expect(mow && [textOf(mow, "SUMMARY"), textOf(mow, "DESCRIPTION")]).toEqual([
    "A B C: mowing",
    expect.stringMatching(/^M M, p/),
  ]);
});

test("a visit that was moved to where it cannot be done is marked in calendar and table", () => {
  const moved: PlanToExport = {
    ...plan,
    nowUtc: "2026-10-20T00:00:00Z",
    impossible: [{ fieldId: "f1", op: "bale" }],
  };
  const lines = planCsv(moved).trimEnd().split("\r\n");
  expect(lines.filter((line) => line.endsWith(",cannot be carried out here"))).toHaveLength(1);
  const [, bale] = events(planCalendar(moved, STAMP));
  expect(bale && textOf(bale, "SUMMARY")).toMatch(/: baling \(cannot be carried out here\)$/);
});

test("a plan that makes no calendar is refused by name", () => {
  const [mow] = plan.jobs;
  const jobs = [mow, { ...mow, endUtc: "2026-10-24T07:00:00Z" }];
  const outcome = check(planToExport, { ...plan, jobs });
  expect(outcome.ok ? [] : outcome.issues.map(({ message }) => message)).toEqual([
    'jobs[1].endUtc: got "2026-10-24T07:00:00Z", must be later than startUtc (2026-10-24T08:00:00Z)',
    'jobs[1].op: got "mow", must stand once for "f1"',
  ]);
  for (const wrong of [{ revision: 1.5 }, { timeZone: "Mars/Base" }]) {
    expect(check(planToExport, { ...plan, ...wrong }).ok).toBe(false);
  }
  expect(check(planToExport, plan).ok).toBe(true);
});

test("every length of slot there is stands in the refusal of another", () => {
  const outcome = check(crewPlanRequest.pick({ slotMin: true }), { slotMin: 45 });
  expect(outcome.ok ? [] : outcome.issues.map(({ message }) => message)).toEqual([
    "slotMin: got 45, must be one of 60, 30",
  ]);
});

test("a calendar is called as the plan is, in one line and escaped as text", () => {
  const title = `Week; one, and \\two: "Wiese" ${"ü".repeat(60)}`;
  const root = readCalendar(planCalendar({ ...plan, title }, STAMP));
  expect([textOf(root, "NAME"), textOf(root, "X-WR-CALNAME")]).toEqual([title, title]);
  expect(fieldOf(root, "X-WR-CALNAME")).toMatch(/^Week\\; one\\, and \\\\two: /);
  const broken = planCalendar({ ...plan, title: "Week\r\nBEGIN:VEVENT\r\nEND:VEVENT" }, STAMP);
  expect(events(broken)).toHaveLength(3);
  expect(textOf(readCalendar(broken), "NAME")).toBe("Week\nBEGIN:VEVENT\nEND:VEVENT");
});

test.each(["Week\r\nBEGIN:VEVENT", "a\tb", "a\u0007", "A\u0000B", "a\u2028b", "a\u2029b"])(
  "a title or a name with line breaks or control characters (%j) is refused by name",
  (text) => {
    const wrong = { code: "control-character", message: expect.stringContaining("must be one line") };
    const issues = (over: Partial<PlanToExport>) => {
      const checked = check(planToExport, { ...plan, ...over });
      return checked.ok ? [] : checked.issues;
    };
    expect(issues({ title: text })).toMatchObject([{ path: "title", ...wrong }]);
    expect(issues({ names: { fields: { f1: text } } })).toMatchObject([
      { path: "names.fields.f1", ...wrong },
    ]);
    expect(issues({ planId: text })).toMatchObject([{ path: "planId", ...wrong }]);
    const [job] = plan.jobs;
    if (job === undefined) throw new Error("a job");
    expect(issues({ jobs: [{ ...job, personId: text }] })).toMatchObject([
      { path: "jobs[0].personId", ...wrong },
    ]);
    const asked = check(crewPlanRequest.pick({ people: true }), {
      people: [{ id: "a", name: text, from: "07:00", to: "20:00" }],
    });
    expect(asked.ok ? [] : asked.issues).toMatchObject([{ path: "people[0].name", ...wrong }]);
  },
);

test("a visit that fell out is cancelled from its promised start to its promised end; none is made up", () => {
  const cancelled = [
    {
      fieldId: "f2",
      op: "ted" as const,
      startUtc: "2026-10-25T11:00:00Z",
      endUtc: "2026-10-25T14:00:00Z",
    },
    { fieldId: "f2", op: "bale" as const, startUtc: "2026-10-27T12:00:00Z" },
  ];
  const gone = events(planCalendar({ ...plan, jobs: [], cancelled }, STAMP));
  const ends = (event: (typeof gone)[number]) =>
    event.properties.filter(({ name }) => name === "DTEND").map(({ value }) => value);
  expect(gone.map((event) => [fieldOf(event, "DTSTART"), ...ends(event)])).toEqual([
    ["20261025T110000", "20261025T140000"],
    ["20261027T120000"],
  ]);
  const backwards = check(planToExport, {
    ...plan,
    cancelled: [{ ...cancelled[0], endUtc: "2026-10-25T11:00:00Z" }],
  });
  expect(backwards.ok ? [] : backwards.issues).toMatchObject([
    { path: "cancelled[0].endUtc", code: "out-of-order" },
  ]);
});

test("plans that nobody named are told apart by their crews", () => {
  const uids = (names: PlanToExport["names"]) =>
    events(planCalendar({ ...plan, names: { ...plan.names, ...names } }, STAMP)).map((event) =>
      fieldOf(event, "UID"),
    );
  const [own, other] = [uids({ people: { p: "One" } }), uids({ people: { p: "Other" } })];
  expect(own.filter((uid) => other.includes(uid))).toEqual([]);
  expect(uids({ people: { p: "One" }, fields: { f1: "New name" } })).toEqual(own);
});

test.each(["  ", "\u00a0\u3000", "\u200b"])(
  "a title or a name that shows nothing (%j) is refused by name",
  (text) => {
    const wrong = { code: "empty", message: expect.stringContaining("must not be blank") };
    const titled = check(planToExport, { ...plan, title: text });
    expect(titled.ok ? [] : titled.issues).toMatchObject([{ path: "title", ...wrong }]);
    const named = check(planToExport, { ...plan, names: { fields: { f1: text } } });
    expect(named.ok ? [] : named.issues).toMatchObject([{ path: "names.fields.f1", ...wrong }]);
    const asked = check(crewPlanRequest.pick({ people: true }), {
      people: [{ id: "a", name: text, from: "07:00", to: "20:00" }],
    });
    expect(asked.ok ? [] : asked.issues).toMatchObject([{ path: "people[0].name", ...wrong }]);
  },
);
