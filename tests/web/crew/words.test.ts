import { expect, test } from "vitest";
import type { CrewJobAnswer, CrewOp, CrewPlanAnswer } from "../../../model/crew/index.ts";
import { impossibleWorks } from "../../../web/crew/all-faults.ts";
import { chanceSentence, crewSentence } from "../../../web/crew/crew-sentences.ts";
import { changeTexts, customerTexts } from "../../../web/crew/customer-texts.ts";
import { farmWords } from "../../../web/crew/farm-words.ts";
import type { Manner } from "../../../web/format/manner.ts";
import { crewField } from "../../support/crew/requests.ts";

const us: Manner = { units: "us", hour12: true, locale: "en-US", zone: "America/Chicago" };
const metric: Manner = { ...us, units: "metric", hour12: false, locale: "en-GB" };

const job = (fieldId: string, op: CrewOp, day: number, hour: number): CrewJobAnswer => ({
  fieldId,
  op,
  machineId: `${op}-1`,
  personId: "one",
  startUtc: `2026-07-${String(day).padStart(2, "0")}T${String(hour).padStart(2, "0")}:00:00Z`,
  endUtc: `2026-07-${String(day).padStart(2, "0")}T${String(hour + 2).padStart(2, "0")}:00:00Z`,
});

const fields = [
  crewField("creek", { name: "Creek field", customer: "First customer" }),
  crewField("hill", { name: "Hilltop", customer: "First customer" }),
  crewField("mill", { name: "Mill lane", customer: "Second customer" }),
];

function plan(over: Partial<CrewPlanAnswer> = {}): CrewPlanAnswer {
  return {
    jobs: [job("creek", "mow", 1, 14), job("creek", "bale", 2, 19)],
    left: [],
    changes: [],
    replay: [],
    worth: null,
    names: {
      fields: { creek: "Creek field", hill: "Hilltop", mill: "Mill lane" },
      machines: {},
      people: {},
    },
    timeZone: "America/Chicago",
    nowUtc: "2026-07-01T05:00:00Z",
    ...over,
  } as unknown as CrewPlanAnswer;
}

test("the model's times come on the reader's clock, its UTC moments in the farm's time", () => {
  const text = "not ready before Tue 15:00 after mowing on Mon 09:00-12:30; got 2026-07-01T20:00:00Z, 12:00";
  expect(farmWords(text, us)).toBe(
    "not ready before Tue 3 pm after mowing on Mon 9 am to 12:30 pm; got Wed 1 Jul 3 pm, noon",
  );
  expect(farmWords(text, metric)).toBe(
    "not ready before Tue 15:00 after mowing on Mon 09:00 to 12:30; got Wed 1 Jul 15:00, 12:00",
  );
  expect(farmWords("4:30 of 16.5 t, site s1|s2", us)).toBe("4:30 of 16.5 t, site s1|s2");
});

test("of works moved to where they cannot be done the headline counts no field in, and names it", () => {
  const moved = plan({
    jobs: [job("creek", "bale", 1, 14), job("creek", "mow", 2, 19), job("hill", "mow", 1, 16)],
  });
  expect(crewSentence(moved, us, [{ fieldId: "creek" }, { fieldId: "mill" }])).toBe(
    "As it was moved, this plan cannot be carried out for Creek field and Mill lane. 1 of 3 fields in by Wednesday 1 pm.",
  );
  const order = { fieldId: "creek", op: "bale", code: "order", text: "" };
  const doubt = { ...order, fieldId: "mill", code: "weather" };
  expect(impossibleWorks([order, order, doubt], new Set(["mill/bale"]))).toEqual([
    { fieldId: "creek", op: "bale" },
  ]);
});

test("a field held at an hour at which it will hardly be dry is not counted in, and named", () => {
  const replay = (chanceDry: number | null, atRisk = true) =>
    [{ fieldId: "creek", chanceDry, atRisk }] as unknown as CrewPlanAnswer["replay"];
  const said = "2 of 3 fields in. Creek field, as it stands in the plan, will hardly be dry.";
  expect(crewSentence(plan({ replay: replay(0.05) }), us)).toBe(said);
  expect(crewSentence(plan({ replay: replay(null) }), us)).toBe(said);
  expect(crewSentence(plan({ replay: replay(0.4) }), us)).toBe("3 of 3 fields in by Thursday 4 pm.");
  expect(crewSentence(plan({ replay: replay(null, false) }), us)).toBe("3 of 3 fields in by Thursday 4 pm.");
  // What is baled is baled.
  expect(crewSentence(plan({ replay: replay(0.05), nowUtc: "2026-07-03T05:00:00Z" }), us)).toContain(
    "3 of 3",
  );
});

test("the headline names every field that is left, one with its reason, and tells standing from mown", () => {
  const why = "the only baler is away until Thu 15:00";
  const one = plan({ left: [{ fieldId: "hill", why: `${why}.` }] });
  expect(crewSentence(one, us)).toBe(
    "2 of 3 fields in by Thursday 4 pm. Hilltop is left standing: the only baler is away until Thu 3 pm.",
  );
  const left = ["hill", "mill"].map((fieldId) => ({ fieldId, why }));
  expect(crewSentence(plan({ left }), us)).toBe(
    "1 of 3 fields in by Thursday 4 pm. Two fields are left standing: Hilltop and Mill lane.",
  );
  const mown = plan({ left, jobs: [...plan().jobs, job("mill", "mow", 1, 14)] });
  expect(crewSentence(mown, us)).toBe(
    "1 of 3 fields in by Thursday 4 pm. Hilltop is left standing. Mill lane would lie mown: do not mow.",
  );
  expect(crewSentence({ ...mown, nowUtc: "2026-07-01T15:00:00Z" }, us)).toContain(
    "Mill lane lies mown and is not brought in.",
  );
  const held = {
    fieldId: "mill",
    why: `its mowing is held at Wed 1 Jul 09:00, but it would lie mown (do not mow), because ${why}`,
  };
  expect(crewSentence(plan({ ...mown, left: [held] }), us)).toBe(
    "2 of 3 fields in by Thursday 4 pm. Mill lane would lie mown: do not mow. Its mowing is held at Wed 1 Jul 9 am, but nothing would bring it in, because the only baler is away until Thu 3 pm.",
  );
  // In the order of the list, whatever that of the plan.
  expect(crewSentence(plan({ left: [...left].reverse() }), us)).toContain("Hilltop and Mill lane");
  const lying = [
    {
      fieldId: "mill",
      why: `left lying, mown Wed 1 Jul 09:00, because ${why}`,
      mownUtc: job("mill", "mow", 1, 14).startUtc,
    },
  ];
  expect(crewSentence(plan({ left: lying }), us)).toBe(
    "2 of 3 fields in by Thursday 4 pm. Mill lane: left lying, mown Wed 1 Jul 9 am, because the only baler is away until Thu 3 pm.",
  );
  const all = ["creek", "hill", "mill"].map((fieldId) => ({ fieldId, why }));
  expect(crewSentence(plan({ left: all, jobs: [] }), us)).toBe(
    "No field can be brought in. Three fields are left standing: Creek field, Hilltop and Mill lane.",
  );
});

test("the plan's chance stands in the headline, the weakest field with what keeps it from being dry most often", () => {
  const hill = (cause: string) => ({
    ...{ fieldId: "hill", chanceDry: 0.42 },
    notDry: [
      { cause, share: 0.4 },
      { cause: "dew", share: 0.18 },
    ],
  });
  const replay = (cause: string) =>
    [{ fieldId: "creek", chanceDry: 0.8 }, hill(cause)] as unknown as CrewPlanAnswer["replay"];
  const worth = { chanceAllDry: 0.4 } as CrewPlanAnswer["worth"];
  const jobs = [...plan().jobs, job("hill", "bale", 3, 19)];
  const told = (cause: string) => chanceSentence(plan({ replay: replay(cause), worth, jobs }));
  expect(crewSentence(plan({ replay: replay("rain"), worth, jobs }), us)).toBe(
    "3 of 3 fields in by Friday 4 pm, 4 in 10.",
  );
  expect(told("rain")).toBe("Weakest: Hilltop, 4 in 10, because it may rain during the baling.");
  expect(told("rain-before")).toBe("Weakest: Hilltop, 4 in 10, because it may still be too wet after rain.");
  expect(told("slow")).toBe("Weakest: Hilltop, 4 in 10, because it may not be dry enough by then.");
  expect(told("dew")).toBe("Weakest: Hilltop, 4 in 10, because dew may lie on it then.");
  expect(chanceSentence(plan())).toBe("");
  // Of a plan that cannot be carried out for all, or whose works were moved, nobody knows the whole chance.
  expect(crewSentence(plan({ replay: replay("rain"), worth, jobs }), us, [{ fieldId: "mill" }])).toContain(
    "2 of 3 fields in by Friday 4 pm.",
  );
  expect(crewSentence(plan({ replay: replay("rain"), jobs }), us)).toBe("3 of 3 fields in by Friday 4 pm.");
});

test("a plan whose last work ends at midnight is done on the day that is over then", () => {
  const last = { ...job("creek", "bale", 3, 3), endUtc: "2026-07-03T05:00:00Z" };
  expect(crewSentence(plan({ jobs: [last] }), us)).toBe("3 of 3 fields in by Thursday midnight.");
});

test("a customer's text has areas, the reader's clock and the farm's zone, and says a reason once", () => {
  const why = "the only baler is away until Thu 15:00";
  const gone = (fieldId: string, op: CrewOp, hour: number) => {
    const { startUtc } = job(fieldId, op, 2, hour);
    return { fieldId, op, fromUtc: startUtc, toUtc: null, why, text: "" };
  };
  const told = plan({
    left: ["hill", "mill"].map((fieldId) => ({ fieldId, why })),
    jobs: [...plan().jobs, job("mill", "mow", 1, 14)],
    changes: [
      ...(["mow", "ted", "rake", "bale"] as const).map((op, i) => gone("hill", op, 14 + i)),
      { ...gone("creek", "bale", 18), toUtc: "2026-07-02T19:00:00Z", why: "it rains", text: "" },
    ],
  });
  const texts = customerTexts(told, fields, undefined, us);
  expect(texts.map(({ customer }) => customer)).toEqual(["First customer", "Second customer"]);
  expect(texts[0]?.text).toBe(
    [
      "Creek field (19.8 ac): mowing Wed 1 Jul 9 am to 11 am, baling Thu 2 Jul 2 pm to 4 pm.",
      "Hilltop (19.8 ac): not in this plan, the only baler is away until Thu 3 pm.",
      "Changed:",
      "Creek field: baling moves from Thu 2 Jul 1 pm to Thu 2 Jul 2 pm because it rains.",
      "All times hold if the weather does (farm time, America/Chicago).",
    ].join("\n"),
  );
  expect(texts[1]?.text).toContain("Mill lane (19.8 ac): the only baler");
});

test("who waits for a field that was taken out is told that nobody comes", () => {
  const bale = job("old", "bale", 2, 19);
  const told = plan({
    changes: [
      {
        fieldId: "old",
        op: "bale",
        fromUtc: bale.startUtc,
        toUtc: null,
        why: "the work is not asked for any more",
        text: "",
      },
    ],
  });
  const gone = {
    fields: { old: "Old piece" },
    machines: {},
    people: {},
    customers: { old: "Third customer" },
  };
  const text = customerTexts(told, fields, gone, us).find(
    ({ customer }) => customer === "Third customer",
  )?.text;
  expect(text).toBe(
    "Changed:\nOld piece: baling on Thu 2 Jul 2 pm falls out because the work is not asked for any more.",
  );
});

test("changes of one field and one reason are one sentence, a reason of two fields is said once", () => {
  const moved = (fieldId: string, op: CrewOp, why: string) => ({
    fieldId,
    op,
    fromUtc: "2026-07-02T15:00:00Z",
    toUtc: "2026-07-03T15:00:00Z",
    why,
  });
  const names = { creek: "Creek field", hill: "Hilltop" };
  const texts = changeTexts(
    [
      moved("creek", "rake", "it rains"),
      moved("creek", "bale", "it rains"),
      moved("hill", "bale", "it rains"),
    ],
    names,
    metric,
  );
  expect(texts).toEqual([
    "Creek field: raking moves from Thu 2 Jul 10:00 to Fri 3 Jul 10:00 and baling moves from Thu 2 Jul 10:00 to Fri 3 Jul 10:00 because it rains.",
    "Hilltop: baling moves from Thu 2 Jul 10:00 to Fri 3 Jul 10:00, for the same reason.",
  ]);
  const out = (op: CrewOp) => ({ ...moved("hill", op, "the baler is away"), toUtc: null });
  expect(changeTexts([out("mow"), out("rake"), out("bale")], names, us)).toEqual([
    "Hilltop: mowing, raking and baling from Thu 2 Jul 10 am on fall out because the baler is away.",
  ]);
});
