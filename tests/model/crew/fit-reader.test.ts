import { expect, test } from "vitest";
import { bandOfOp } from "../../../model/crew/windows/band.ts";
import { type FieldWindows, fieldWindows, readerOf } from "../../../model/crew/windows/field-windows.ts";
import { fitReader, membersNeeded } from "../../../model/crew/windows/fit-reader.ts";
import { type MemberSwath, memberSwaths } from "../../../model/crew/windows/member-swath.ts";
import { countSlots, type SlotFrame } from "../../../model/crew/windows/runs.ts";
import { siteWeathers } from "../../../model/crew/windows/site-weather.ts";
import { windowStore } from "../../../model/crew/windows/window-store.ts";
import type { Operation } from "../../../model/drying/operations.ts";
import { fitStretches } from "../../../model/harvest/spans.ts";
import { crewField, FROM_UTC, spellWithMembers } from "../../support/crew/requests.ts";

const HOUR_MS = 3_600_000;
const FROM_MS = Date.parse(FROM_UTC);
const FIELD = crewField("creek");
const SHARE = 0.8;

function membersOf(): readonly MemberSwath[] {
  const sites = siteWeathers({ s1: { series: spellWithMembers(7, 5) } }, FROM_MS, 1);
  if (!sites.ok || sites.value.s1 === undefined) throw new Error("the invented spell is refused");
  return memberSwaths(sites.value.s1, FIELD.swath, 10, 1, new Map());
}

const tedAtUtcMs = (cutUtcMs: number) => cutUtcMs + 20 * HOUR_MS;
const teddingAfter = (cutUtcMs: number): Operation => ({
  kind: "ted",
  atUtcMs: tedAtUtcMs(cutUtcMs),
  coveredFraction: null,
});

/** The same from whole courses, each run from its cut to the end of the weather. */
function fitWhole(members: readonly MemberSwath[], frame: SlotFrame, q: number, atUtcMs: number | null) {
  const cutUtcMs = frame.startUtcMs + q * frame.slotMs;
  const passes = [teddingAfter(cutUtcMs)];
  if (atUtcMs !== null) passes.push({ kind: "rake", atUtcMs, coveredFraction: null });
  passes.sort((a, b) => a.atUtcMs - b.atUtcMs);
  const band = bandOfOp("bale", FIELD);
  if (band === null) throw new Error("hay is baled at any moisture");
  const [ready, inBand] = [new Uint16Array(frame.count), new Uint16Array(frame.count)];
  for (const member of members) {
    const track = member.track(member.course(cutUtcMs, passes));
    countSlots(frame, fitStretches(track, [0, band.bandWb[1]], band.conditions), cutUtcMs, ready);
    countSlots(frame, fitStretches(track, band.bandWb, band.conditions), cutUtcMs, inBand);
  }
  const dry = Uint8Array.from(ready, (n) => (n >= membersNeeded(members, SHARE) ? 1 : 0));
  return {
    dry,
    fit: dry.map((yes, t) => (yes === 1 && (inBand[t] as number) >= members.length / 2 ? 1 : 0)),
  };
}

// The last three: slots across two hours of the weather, shorter than one, and an end before the weather's.
test.each([
  ["hours of the weather", { startUtcMs: FROM_MS, slotMs: HOUR_MS, count: 168 }],
  ["across two hours", { startUtcMs: FROM_MS + HOUR_MS / 4, slotMs: HOUR_MS, count: 166 }],
  ["half hours", { startUtcMs: FROM_MS, slotMs: HOUR_MS / 2, count: 240 }],
  ["five days of seven", { startUtcMs: FROM_MS, slotMs: HOUR_MS, count: 120 }],
])("slots are fit as whole courses have them, raked or not: %s", (_, frame) => {
  const members = membersOf();
  const slotUtcMs = (slot: number) => frame.startUtcMs + slot * frame.slotMs;
  const passesAfter = (q: number) => [teddingAfter(slotUtcMs(q))];
  const reader = fitReader({ fields: [FIELD], members, frame, readyShare: SHARE, passesAfter }).of(FIELD);
  const perHour = HOUR_MS / frame.slotMs;
  let fit = 0;
  for (const hour of [9, 15, 33, 58]) {
    const q = hour * perHour;
    expect(reader.spread(q).get("bale")).toEqual(fitWhole(members, frame, q, null));
    for (const later of [0.5, 3.5, 19, 20, 26.5, 50, 77.5, 109.5]) {
      const atUtcMs = slotUtcMs(q) + later * HOUR_MS;
      const read = reader.raked(q, atUtcMs, "bale");
      expect(read).toEqual(fitWhole(members, frame, q, atUtcMs));
      expect(reader.raked(q, atUtcMs, "bale")).toBe(read);
      fit += read.fit.reduce((sum, yes) => sum + yes, 0);
    }
  }
  expect(fit).toBeGreaterThan(100);
});

test("windows are the same with a reader that other rakings have read from before", () => {
  const members = membersOf();
  const frame: SlotFrame = { startUtcMs: FROM_MS, slotMs: HOUR_MS, count: 168 };
  const days = [9, 11, 13, 15].flatMap((hour) => [hour, hour + 24, hour + 48]).sort((a, b) => a - b);
  const hours = { asked: days, telling: days };
  const passes = (rakeSlots: number) => ({ tedAtUtcMs, rakeSlots });
  const reader = readerOf([FIELD], members, frame, hours, SHARE, passes(1)).of(FIELD);
  const shared = [1, 2, 3].map((slots) =>
    fieldWindows(FIELD, members, frame, hours, SHARE, passes(slots), undefined, reader),
  );
  const alone = [1, 2, 3].map((slots) => fieldWindows(FIELD, members, frame, hours, SHARE, passes(slots)));
  expect(shared).toEqual(alone);
  const opened = ({ mowGain }: FieldWindows) => mowGain.filter((gain) => Number.isFinite(gain)).length;
  expect(alone.map(opened)).not.toContain(0);
});

test("fields of one crop are answered from what is known of it, each as if it were asked alone", () => {
  const members = membersOf();
  const frame: SlotFrame = { startUtcMs: FROM_MS, slotMs: HOUR_MS, count: 168 };
  const days = [10, 14, 34, 38];
  const hours = { asked: days, telling: days };
  const wrapped = crewField("hill", { route: "wrapped-bales" });
  const larger = crewField("mill", { areaHa: 30 });
  const asked = [
    { field: FIELD, rakeSlots: 1 },
    { field: wrapped, rakeSlots: 1 },
    { field: larger, rakeSlots: 3 },
    { field: { ...FIELD, id: "lane" }, rakeSlots: 1 },
  ];
  const nothing = { ops: [], gatherStart: null, passes: [] };
  const windowsOf = windowStore(
    asked.map(({ field }) => field),
    frame,
    SHARE,
  );
  const found = asked.map(({ field, rakeSlots }) =>
    windowsOf(field, members, members, hours, { tedAtUtcMs, rakeSlots }, nothing, null),
  );
  for (const [i, { field, rakeSlots }] of asked.entries()) {
    expect(found[i]).toEqual(
      fieldWindows(field, members, frame, hours, SHARE, { tedAtUtcMs, rakeSlots }, nothing),
    );
  }
  expect(found[3]).toBe(found[0]);
  expect(found[2]).not.toEqual(found[0]);
  expect(found[1]).not.toEqual(found[0]);
  // Held work is another question.
  const held = {
    ...nothing,
    passes: [{ ...teddingAfter(FROM_MS + 10 * HOUR_MS), atUtcMs: FROM_MS + 40 * HOUR_MS }],
  };
  const again = windowStore([FIELD, FIELD], frame, SHARE);
  const passes = { tedAtUtcMs, rakeSlots: 1 };
  expect(again(FIELD, members, members, hours, passes, nothing, null)).toEqual(found[0]);
  expect(again(FIELD, members, members, hours, passes, held, null)).toEqual(
    fieldWindows(FIELD, members, frame, hours, SHARE, passes, held),
  );
});
