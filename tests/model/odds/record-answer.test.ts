import { expect, test } from "vitest";
import { BANDS_CRPS_NOTE, RECORD_NOTES, recordAnswer, recordOfBook } from "../../../model/odds/index.ts";
import { crpsOfBands } from "../../../model/odds/record.ts";

const BANDS = { p10: 0.2, p25: 0.25, p50: 0.3, p75: 0.35, p90: 0.4 };
const day = (i: number) => `2026-07-${String(1 + i).padStart(2, "0")}`;

function met(days: number) {
  return Array.from({ length: days }, (_, i) => ({
    issuedUtc: `${day(i)}T06:00:00Z`,
    atUtc: `${day(i)}T18:00:00Z`,
    route: "dry-hay",
    bandsWb: BANDS,
    observedWb: 0.32,
  }));
}

function ask(days: number) {
  const outcome = recordAnswer({ timeZone: "America/Chicago", moisture: met(days) });
  if (!outcome.ok) throw new Error(outcome.issues[0]?.message);
  return outcome.value;
}

test("under twenty days it is too few to say; from twenty on bias and share stand", () => {
  expect(ask(19).moisture[0]?.bias).toMatchObject({ enough: false, days: 19 });
  const [scores] = ask(20).moisture;
  expect(scores?.bias).toMatchObject({ enough: true, days: 20 });
  expect(scores?.bias.enough && scores.bias.mean).toBeCloseTo(-0.02, 12);
  expect(scores?.inside80.enough && scores.inside80.mean).toBe(1);
  expect(ask(20).notes.join(" ")).toContain("77 %");
});

test("a CRPS by told quantiles says so", () => {
  expect(ask(1).notes).toContain(BANDS_CRPS_NOTE);
  const met = { issuedUtc: "2026-07-01T00:00:00Z", atUtc: "2026-07-02T00:00:00Z", observedWb: 0.3 };
  const outcome = recordAnswer({
    timeZone: "America/Chicago",
    moisture: [{ ...met, membersWb: [0.2, 0.4] }],
  });
  expect(outcome.ok && outcome.value.notes).toBe(RECORD_NOTES);
  // Of a right normal forecast, over its own middle: 2.2 % above the closed form.
  const [p75, p90] = [0.67449, 1.28155];
  const told = { p10: -p90, p25: -p75, p50: 0, p75, p90 };
  for (const [observed, closed, share] of [
    [0, 0.2337, 0.961],
    [1, 0.6024, 1.004],
    [3, 2.4366, 1.029],
  ] as const)
    expect(crpsOfBands(told, observed) / closed).toBeCloseTo(share, 2);
});

// By hand: 2 (0.175 0.1 0.12 + 0.2 0.25 0.07 + 0.25 0.5 0.02 + 0.2 0.25 0.03 + 0.175 0.1 0.08) = 0.022.
test("the CRPS of told quantiles is twice their pinball loss", () => {
  expect(crpsOfBands(BANDS, 0.32)).toBeCloseTo(0.022, 12);
});

test("a chance outside 0-1 and a reading before the issue are refused by their fields", () => {
  const outcome = recordAnswer({
    timeZone: "America/Chicago",
    moisture: [
      { issuedUtc: "2026-07-02T00:00:00Z", atUtc: "2026-07-01T00:00:00Z", bandsWb: BANDS, observedWb: 0.3 },
    ],
    chances: [{ issuedUtc: "2026-07-01T00:00:00Z", atUtc: "2026-07-02T00:00:00Z", chance: 1.2, came: true }],
  });
  expect(outcome.ok ? [] : outcome.issues.map(({ path }) => path)).toEqual([
    "moisture[0].atUtc",
    "chances[0].chance",
  ]);
});

test("a kept forecast meets the later readings of its cut, between hour ends", () => {
  const line = (from: number) => [from, from - 0.1, from - 0.2];
  const startUtc = ["2026-07-01T15:00:00Z", "2026-07-01T16:00:00Z", "2026-07-01T17:00:00Z"];
  const quantiles = { p10: line(0.6), p25: line(0.65), p50: line(0.7), p75: line(0.75), p90: line(0.8) };
  const forecast = {
    cutId: "a",
    issuedUtc: "2026-07-01T12:00:00Z",
    route: "dry-hay",
    course: { startUtc, quantiles },
  };
  const reading = { cutId: "a", atUtc: "2026-07-01T16:30:00Z", moistureWb: 0.66 };
  const { moisture } = recordOfBook("America/Chicago", [forecast], [reading, { ...reading, cutId: "b" }]);
  expect(moisture).toHaveLength(1);
  expect(moisture?.[0]?.bandsWb?.p50).toBeCloseTo(0.65, 12);
  // Mown the day after: the course was of another cut.
  const mown = (cutUtc: string) =>
    recordOfBook("UTC", [forecast], [reading], { cuts: [{ id: "a", cutUtc }] });
  expect(mown("2026-07-01T13:00:00Z").moisture).toHaveLength(1);
  expect(mown("2026-07-02T13:00:00Z")).toMatchObject({ moisture: [], leftOut: 1 });
  expect(recordOfBook("UTC", [forecast], [{ ...reading, atUtc: "2026-07-01T19:00:00Z" }]).moisture).toEqual(
    [],
  );
});

test("a reading of a lot, or taken once the cut was baled or chopped, is none of the swath: it is counted, not scored", () => {
  const hours = 12;
  const flat = Array(hours).fill(0.3);
  const startUtc = Array.from({ length: hours }, (_, i) =>
    new Date(Date.UTC(2026, 6, 1, 12 + i)).toISOString(),
  );
  const quantiles = { p10: flat, p25: flat, p50: flat, p75: flat, p90: flat };
  const forecast = { cutId: "a", issuedUtc: "2026-07-01T12:00:00Z", course: { startUtc, quantiles } };
  const at = (hour: number) => ({ cutId: "a", atUtc: `2026-07-01T${hour}:00:00Z`, moistureWb: 0.3 });
  const bale = { kind: "bale", doneUtc: "2026-07-01T15:00:00Z", doneEndUtc: "2026-07-01T17:00:00Z" };
  const record = (operations: readonly { kind: string; doneUtc?: string; doneEndUtc?: string }[]) => {
    const readings = [{ ...at(14), lotId: "hay" }, at(16), at(18), { ...at(19), cutId: "b" }];
    const { moisture, gathered, leftOut } = recordOfBook("UTC", [forecast], readings, {
      cuts: [{ id: "a", operations }],
    });
    return [moisture?.map(({ atUtc }) => atUtc.slice(11, 13)), gathered, leftOut];
  };
  expect(record([{ kind: "bale" }])).toEqual([["16", "18"], 1, 0]);
  expect(record([{ kind: "rake", doneUtc: "2026-07-01T15:00:00Z" }])).toEqual([["16", "18"], 1, 0]);
  // Half of it is baled at 16: the rest lies on.
  expect(record([bale])).toEqual([["16"], 2, 0]);
  expect(record([{ kind: "chop", doneUtc: "2026-07-01T15:30:00Z" }])).toEqual([[], 3, 0]);
});

test("a reading of a field alone is of the cut that was mown last", () => {
  const startUtc = ["2026-07-05T15:00:00Z", "2026-07-05T16:00:00Z"];
  const flat = [0.3, 0.3];
  const quantiles = { p10: flat, p25: flat, p50: flat, p75: flat, p90: flat };
  const forecast = { fieldId: "f", issuedUtc: "2026-07-05T12:00:00Z", course: { startUtc, quantiles } };
  const reading = { fieldId: "f", atUtc: "2026-07-05T16:30:00Z", moistureWb: 0.3 };
  const bale = { kind: "bale", doneUtc: "2026-07-03T15:00:00Z" };
  const first = { id: "a", fieldId: "f", cutUtc: "2026-07-01T15:00:00Z", operations: [bale] };
  const unmown = { id: "b", fieldId: "f", operations: [bale] };
  const next = { id: "c", fieldId: "f", cutUtc: "2026-07-05T13:00:00Z" };
  const scored = (...cuts: readonly { id: string; fieldId: string }[]) =>
    recordOfBook("UTC", [forecast], [reading], { cuts }).moisture?.length;
  expect(scored(unmown, { ...first, fieldId: "g" })).toBe(1);
  expect(scored(first)).toBe(0);
  expect(scored(next, first, unmown)).toBe(1);
});

test("a reading of a lot does not tell whether a window came", () => {
  const window = { what: "window", route: "dry-hay", fromUtc: "2026-07-03T10:00:00Z", chance: 0.5 };
  const chances = [{ ...window, toUtc: "2026-07-03T18:00:00Z", bandWb: [0.12, 0.16] as const }];
  const forecast = { cutId: "a", issuedUtc: "2026-07-01T12:00:00Z", chances };
  const reading = { cutId: "a", lotId: "hay", atUtc: "2026-07-03T18:00:00Z", moistureWb: 0.15 };
  const cuts = [{ id: "a", plannedUtc: "2026-07-01T14:00:00Z" }];
  expect(recordOfBook("UTC", [forecast], [reading], { cuts })).toMatchObject({ chances: [], notKnown: 1 });
  expect(recordOfBook("UTC", [forecast], [{ ...reading, lotId: null }], { cuts }).chances).toHaveLength(1);
});

test("a reading counts once for each weather of its cut, by the first that was told; so does a told window", () => {
  const startUtc = ["2026-07-01T15:00:00Z", "2026-07-01T16:00:00Z"];
  const course = (wb: number) => ({
    startUtc,
    quantiles: { p10: [wb, wb], p25: [wb, wb], p50: [wb, wb], p75: [wb, wb], p90: [wb, wb] },
  });
  const window = { what: "window", route: "dry-hay", chance: 0.5, came: true };
  const told = (issuedUtc: string, weather: string | undefined, wb: number, toUtc: string) => ({
    cutId: "a",
    issuedUtc,
    ...(weather === undefined ? {} : { weather }),
    route: "dry-hay",
    course: course(wb),
    chances: [{ ...window, toUtc }],
  });
  const reading = { cutId: "a", atUtc: "2026-07-01T16:30:00Z", moistureWb: 0.66 };
  const kept = [
    // A lever tried on the first weather, told later; the second weather; one without weather kept.
    told("2026-07-01T12:05:00Z", "w1", 0.5, "2026-07-03T18:00:00Z"),
    told("2026-07-01T12:00:00Z", "w1", 0.7, "2026-07-03T20:00:00Z"),
    told("2026-07-01T14:00:00Z", "w2", 0.65, "2026-07-03T20:00:00Z"),
    told("2026-07-01T14:30:00Z", undefined, 0.64, "2026-07-03T20:00:00Z"),
  ];
  const record = recordOfBook("UTC", kept, [reading]);
  expect(record.moisture?.map(({ bandsWb }) => bandsWb?.p50)).toEqual([0.7, 0.65, 0.64]);
  expect(record.chances?.map(({ atUtc }) => atUtc)).toEqual(Array(3).fill("2026-07-03T20:00:00Z"));
  expect(record).toMatchObject({ again: 2, leftOut: 0, notKnown: 0 });
  // Two readings of one hour are two.
  expect(
    recordOfBook("UTC", kept.slice(1, 2), [reading, { ...reading, moistureWb: 0.6 }]).moisture,
  ).toHaveLength(2);
});

test("what cannot be scored is refused by its field: bands out of order, an unknown route or zone, too long a lead", () => {
  const [one] = met(1);
  if (!one) throw new Error("one");
  const pathsOf = (change: object) => {
    const outcome = recordAnswer({ timeZone: "UTC", moisture: [{ ...one, ...change }] });
    return outcome.ok ? [] : outcome.issues.map(({ path }) => path);
  };
  expect(pathsOf({ bandsWb: { ...BANDS, p10: 0.5 } })).toEqual(["moisture[0].bandsWb"]);
  expect(pathsOf({ route: "banana" })).toEqual(["moisture[0].route"]);
  expect(pathsOf({ timeZone: "Farm/Here" })).toEqual(["moisture[0].timeZone"]);
  expect(pathsOf({ atUtc: "2026-07-17T06:01:00Z" })).toEqual(["moisture[0].atUtc"]);
  const last = recordAnswer({ timeZone: "UTC", moisture: [{ ...one, atUtc: "2026-07-17T06:00:00Z" }] });
  expect(last.ok && last.value.moisture.map(({ leadH }) => leadH)).toEqual([[120, 384]]);
});

test("days are those of each forecast's own farm; what was issued too long before is counted as left out", () => {
  const chance = { toUtc: "2026-07-02T03:00:00Z", chance: 0.5, came: true };
  const early = { ...chance, toUtc: "2026-08-02T03:00:00Z" };
  const kept = ["here", "there"].map((fieldId) => ({
    fieldId,
    issuedUtc: "2026-07-01T12:00:00Z",
    chances: [chance, early],
  }));
  const zoneOf = ({ fieldId }: { fieldId?: string | null | undefined }) =>
    fieldId === "here" ? "America/Chicago" : "Europe/Berlin";
  const {
    leftOut,
    notKnown: _,
    bare: _bare,
    again: _again,
    gathered: _gathered,
    ...request
  } = recordOfBook("UTC", kept, [], { zoneOf });
  expect(leftOut).toBe(2);
  const outcome = recordAnswer(request);
  // 3:00 UTC is the evening before in Chicago.
  expect(outcome.ok && outcome.value.counts).toEqual({ moisture: 0, chances: 2, days: 2 });
});
