import { expect, test } from "vitest";
import {
  type CrewJobAnswer,
  type CrewOp,
  changeTexts,
  customerTexts,
  type TextField,
  type TextSaying,
} from "../../../model/crew/index.ts";

const saying: TextSaying = { clock: { timeZone: "America/Chicago", hour12: false } };
const fields: readonly TextField[] = [
  { id: "creek", name: "Creek field", customer: "One" },
  { id: "hill", name: "Hilltop", customer: "Two" },
];
const job = (fieldId: string, op: CrewOp, day: number, hour: number): CrewJobAnswer => ({
  fieldId,
  op,
  machineId: "m",
  personId: "p",
  startUtc: `2026-07-0${day}T${hour}:00:00Z`,
  endUtc: `2026-07-0${day}T${hour + 2}:00:00Z`,
});
const plan = {
  jobs: [job("creek", "mow", 1, 14), job("creek", "bale", 8, 19)],
  left: [],
  changes: [],
  nowUtc: "2026-07-01T05:00:00Z",
  names: { fields: {}, machines: {}, people: {} },
};

test("visits have weekday and date, and the promise hangs on the weather", () => {
  expect(customerTexts(plan, fields, saying)).toEqual([
    {
      customer: "One",
      text: "Creek field: mowing Wed 1 Jul 09:00 to 11:00, baling Wed 8 Jul 14:00 to 16:00.\nAll times hold if the weather does.",
    },
  ]);
  const text = customerTexts(plan, [{ ...(fields[0] as TextField), areaHa: 8 }], {
    clock: { timeZone: "America/Chicago", hour12: true },
    areaWords: (ha) => `${ha} ha`,
    timesAre: "farm time",
  })[0]?.text;
  expect(text).toMatch(/^Creek field \(8 ha\): mowing Wed 1 Jul 9 am to 11 am, .*\(farm time\)\.$/s);
});

test("a finished field is said to be done, without a promise; one under way until when", () => {
  const done = { ...plan, nowUtc: "2026-07-08T21:00:00Z" };
  expect(customerTexts(done, fields, saying)[0]?.text).toBe("Creek field: all done.");
  const under = { ...plan, nowUtc: "2026-07-08T20:00:00Z" };
  expect(customerTexts(under, fields, saying)[0]?.text).toBe(
    "Creek field: baling under way until Wed 8 Jul 16:00.\nAll times hold if the weather does.",
  );
});

test("a new field's visits stand once, and a reason is the customer's", () => {
  const change = {
    fieldId: "creek",
    op: "mow",
    fromUtc: null,
    toUtc: "2026-07-01T14:00:00Z",
    why: "",
  } as const;
  const baled = { ...change, op: "bale", toUtc: "2026-07-08T19:00:00Z" } as const;
  const fresh = customerTexts({ ...plan, changes: [change, baled] }, fields, saying)[0]?.text ?? "";
  expect(fresh).not.toContain("Changed");
  const more = customerTexts({ ...plan, changes: [baled] }, fields, saying)[0]?.text ?? "";
  expect(more).toContain("Changed:\nCreek field: baling is new, Wed 8 Jul 14:00.");
  const moved = {
    ...change,
    fromUtc: "2026-07-01T12:00:00Z",
    why: "the mower is at Field 12 then",
    customerWhy: "the mower is needed elsewhere then",
  };
  const left = [
    { fieldId: "hill", why: "the baler is taken by fields that bring more", customerWhy: "no machine" },
  ];
  const texts = customerTexts({ ...plan, left, changes: [moved] }, fields, saying);
  expect(texts[0]?.text).toContain("because the mower is needed elsewhere then.");
  expect(texts[1]?.text).toBe("Hilltop: not in this plan, no machine.");
});

test("who waits for a visit of a field that was taken out is told", () => {
  const why = "the work is not asked for any more";
  const gone = (op: CrewOp, day: number) => {
    const { fieldId, startUtc } = job("mill", op, day, 14);
    return { fieldId, op, fromUtc: startUtc, toUtc: null, why };
  };
  const names = { ...plan.names, gone: { mill: "Mill lane" } };
  const told = customerTexts(
    { ...plan, names, changes: [gone("mow", 2), gone("bale", 4)] },
    [...fields, { id: "mill", customer: "Three" }],
    saying,
  );
  expect(told.find(({ customer }) => customer === "Three")?.text).toBe(
    "Changed:\nMill lane: mowing and baling from Thu 2 Jul 09:00 on fall out because the work is not asked for any more.",
  );
});

test("a visit that falls out of a field that lies mown: one because, no second one", () => {
  const why = "left lying, mown Wed 1 Jul 09:00, because the only baler is away";
  const out = { fieldId: "creek", op: "bale" as const, fromUtc: "2026-07-03T15:00:00Z", toUtc: null, why };
  const clock = { timeZone: "UTC", hour12: false };
  expect(changeTexts([out], { creek: "Creek field" }, { clock })).toEqual([
    `Creek field: baling on Fri 3 Jul 15:00 falls out, ${why}.`,
  ]);
});
