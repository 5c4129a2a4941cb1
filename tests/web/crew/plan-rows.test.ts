import { expect, test } from "vitest";
import type { CrewJobAnswer, CrewOp, CrewPlanAnswer } from "../../../model/crew/index.ts";
import { planRows } from "../../../web/crew/plan-rows.ts";
import type { Manner } from "../../../web/format/manner.ts";

const manner: Manner = { units: "us", hour12: true, locale: "en-US", zone: "America/Chicago" };
/** Hours after midnight of the farm, 1 July. */
const utc = (hour: number) =>
  new Date(Date.UTC(2026, 6, 1, 5) + Math.round(hour * 60) * 60_000).toISOString().replace(".000Z", "Z");

const job = (op: CrewOp, fromH: number, toH: number): CrewJobAnswer => ({
  ...{ fieldId: "creek", op, machineId: `${op}-1`, personId: "one" },
  ...{ startUtc: utc(fromH), endUtc: utc(toH) },
});

/** A field mown at 9 and baled on the next day, in a window from 14:00 to the end that is given; light until 21:00. */
function rowsOf(
  fromH: number,
  toH: number,
  untilH: number,
  codes: readonly string[] = [],
  { atRisk = false, feed = [] }: { readonly atRisk?: boolean; readonly feed?: readonly string[] } = {},
) {
  const said = (op: CrewOp) => (code: string) => ({
    fieldId: "creek",
    op,
    code,
    text: `creek field: ${code}.`,
  });
  const open = [{ fromUtc: utc(24 + 12), toUtc: utc(24 + 21) }];
  const plan = {
    jobs: [job("bale", 24 + fromH, 24 + toH), job("mow", 9, 11)],
    replay: [{ fieldId: "creek", chanceDry: 0.82, atRisk }],
    windows: [
      { fieldId: "creek", op: "mow", readyUtc: null, untilUtc: null, openUtc: [] },
      { fieldId: "creek", op: "bale", readyUtc: utc(24 + 14), untilUtc: utc(24 + untilH), openUtc: open },
    ],
    cautions: [...feed.map(said("mow")), ...codes.map(said("bale"))],
    names: {
      fields: { creek: "Creek field" },
      machines: { "mow-1": "Mower", "bale-1": "Baler" },
      people: { one: "Driver one" },
    },
  } as unknown as CrewPlanAnswer;
  return planRows(plan, codes.map(said("bale")), manner);
}

test("a work's row tells its hours, its window, what is spare in it and the chance of its field", () => {
  const [mowing, baling] = rowsOf(15, 17, 18);
  expect(mowing).toMatchObject({ window: "–", spare: "–", chance: "82", caution: "–" });
  expect(baling).toEqual({
    key: "creek/bale",
    field: "Creek field",
    work: "Bale",
    machine: "Baler",
    who: "Driver one",
    starts: "Thu 2 Jul 3 pm",
    ends: "Thu 2 Jul 5 pm",
    window: "Thu 2 Jul 2 pm to 6 pm",
    spare: "1 h",
    chance: "82",
    caution: "–",
  });
});

test("what is spare ends with the light, is nothing at the end of the window, and less than that outside of it", () => {
  const spare = (fromH: number, toH: number, untilH: number) => rowsOf(fromH, toH, untilH)[1]?.spare;
  expect(rowsOf(15, 17, 34)[1]).toMatchObject({ window: "Thu 2 Jul 2 pm to 9 pm", spare: "4 h" });
  expect(spare(15, 18, 18)).toBe("nothing");
  expect(spare(17, 18.6, 18)).toBe("36 min past it");
  expect(spare(17, 19.5, 18)).toBe("1.5 h past it");
  expect(spare(13, 15, 18)).toBe("1 h before it");
});

test("wrapping and hauling have their hours after the work before, baling those after raking where they end first", () => {
  const jobs = [
    job("mow", 9, 11),
    job("rake", 12, 13),
    job("bale", 15, 18),
    job("wrap", 20, 22),
    job("haul", 34, 36),
  ];
  const any = { readyUtc: null, untilUtc: null, openUtc: [] };
  const of = (op: CrewOp) => ({ fieldId: "creek", op, ...any });
  const rows = (windows: readonly object[], untilH = 60) => {
    const bale = { ...of("bale"), readyUtc: utc(14), untilUtc: utc(untilH) };
    const plan = {
      ...{ jobs, replay: [], cautions: [], windows: [bale, ...windows] },
      names: { fields: {}, machines: {}, people: {} },
    } as unknown as CrewPlanAnswer;
    return planRows(plan, [], manner).map(({ window, spare }) => [window, spare]);
  };
  const [mow, rake, bale, wrap, haul] = rows([of("wrap"), of("haul")]);
  expect([mow, rake]).toEqual([
    ["–", "–"],
    ["–", "–"],
  ]);
  // Raked until 13:00: within 24 h.
  expect(bale).toEqual(["Wed 1 Jul 2 pm to Thu 2 Jul 1 pm, to begin", "22 h"]);
  expect(rows([], 24)[2]).toEqual(["Wed 1 Jul 2 pm to Thu 2 Jul 12 am", "6 h"]);
  // Baled until 18:00: within 12 h.
  expect(wrap).toEqual(["Wed 1 Jul 6 pm to Thu 2 Jul 6 am, to begin", "10 h"]);
  expect(haul?.[0]).toBe("Wed 1 Jul 10 pm to Sat 4 Jul 10 pm, to begin");
  // Done works have no windows.
  expect(rows([])[3]).toEqual(["–", "–"]);
});

test("a work's cautions are said in few words, each once, what has none in its own; a field at risk where its crop is taken", () => {
  const codes = ["window", "weather", "weather", "other"];
  const [mowing, baling] = rowsOf(15, 17, 18, codes, { atRisk: true });
  expect(mowing?.caution).toBe("–");
  expect(baling?.caution).toBe(
    "outside its window; against weather, light or crop; Creek field: other; at risk",
  );
  const [cautioned] = rowsOf(15, 17, 18, [], { feed: ["test", "before-cutting"] });
  expect(cautioned?.caution).toBe("sample before cutting; insurer and labels first");
});

test("a mowing in a wait says until when, and what is to be done before it", () => {
  const plan = {
    jobs: [job("mow", 9, 11)],
    replay: [],
    windows: [],
    cautions: [
      {
        fieldId: "creek",
        op: "mow",
        code: "hazard",
        text: "",
        wait: { why: "", untilUtc: utc(5 * 24 + 12) },
      },
      { fieldId: "creek", op: "mow", code: "hazard", text: "" },
    ],
    names: { fields: {}, machines: {}, people: {} },
  } as unknown as CrewPlanAnswer;
  expect(planRows(plan, [], manner)[0]?.caution).toBe(
    "in a wait until Mon 6 Jul noon: sample the standing crop first; in doubt after weather: test it",
  );
});
