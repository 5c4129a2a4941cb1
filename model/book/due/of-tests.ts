import type { CropKey } from "../../drying/keys.ts";
import { PRUSSIC_CROPS } from "../../harvest/hazards/prussic-crops.ts";
import { NITRATE_ACCUMULATORS } from "../../harvest/hazards/records.ts";
import { routeWaits } from "../../harvest/route-details/waits.ts";
import { DAY_MS } from "../../weather/clock.ts";
import type { LabTest, LotDoc, LotResultDoc, LotTestDoc } from "../work-docs.ts";
import { type DueItem, dayText, type Ground, itemOf } from "./item.ts";
import { DUE } from "./records.ts";

const TEST_WORDS: Readonly<Record<LabTest, string>> = {
  nitrate: "nitrate",
  "prussic-acid": "prussic acid",
  moisture: "moisture",
  fermentation: "fermentation",
  "feed-value": "feed value",
};

/** What a laboratory has to say of a crop before an animal gets it. */
function neededTests(crop: CropKey): readonly LabTest[] {
  if (PRUSSIC_CROPS.includes(crop)) return ["nitrate", "prussic-acid"];
  return NITRATE_ACCUMULATORS.includes(crop) ? ["nitrate"] : [];
}

const FIGURE: Readonly<Partial<Record<LabTest, "nitrate" | "prussicAcid">>> = {
  nitrate: "nitrate",
  "prussic-acid": "prussicAcid",
};

/** Whether a paper holds the figure of a test; one of long before the lot was stored is of another crop. */
function holds(doc: LotDoc, what: LabTest, result: LotResultDoc): boolean {
  const key = FIGURE[what];
  if (key === undefined) return true;
  const oldest = Date.parse(doc.storedUtc) - DUE.paperBeforeDays.value * DAY_MS;
  return Boolean(result[key]) && Date.parse(result.atUtc) >= oldest;
}

const isBack = (doc: LotDoc, test: LotTestDoc): boolean =>
  Boolean(test.resultUtc) ||
  (doc.results ?? []).some((result) => result.testId === test.id && holds(doc, test.what, result));

/** Whether a paper answers it: the figure is on one, or its sample came back. */
function isAnswered(doc: LotDoc, what: LabTest): boolean {
  const told = FIGURE[what] !== undefined && (doc.results ?? []).some((result) => holds(doc, what, result));
  return told || (doc.tests ?? []).some((test) => test.what === what && isBack(doc, test));
}

/** A moisture alone says how much of it is feed, and nothing of whether it may be fed. */
const isMoistureAlone = ({ moistureWb, nitrate, prussicAcid, ph, testId }: LotResultDoc): boolean =>
  Boolean(moistureWb) && !nitrate && !prussicAcid && !ph && !testId;

/** Needed, and neither answered nor planned. */
function forgotten(doc: LotDoc): readonly LabTest[] {
  return neededTests(doc.crop).filter(
    (what) => !isAnswered(doc, what) && !(doc.tests ?? []).some((test) => test.what === what),
  );
}

/** What the laboratory has not said yet, in sentences: of samples awaited or to be sent, and of what was never asked. */
export function untested(doc: LotDoc, timeZone: string): string[] {
  const open = (doc.tests ?? []).filter((test) => !isBack(doc, test) && !isAnswered(doc, test.what));
  const never = forgotten(doc);
  return [
    ...open.map(({ what, sentUtc, expectedUtc }) => {
      const day = expectedUtc ? ` on ${dayText(Date.parse(expectedUtc), timeZone)}` : "";
      return sentUtc
        ? `The result of ${TEST_WORDS[what]} is awaited${day}.`
        : `The sample for ${TEST_WORDS[what]} is not sent yet.`;
    }),
    ...(never.length === 0 ? [] : [`Not tested for ${never.map((what) => TEST_WORDS[what]).join(" and ")}.`]),
  ];
}

const FEEDING = "It is open: feed none of it before the result is here.";

function testItem(doc: LotDoc, ground: Ground, openMs: number | null, test: LotTestDoc): DueItem[] {
  if (isBack(doc, test)) return [];
  const { openedUtc } = doc;
  const what = TEST_WORDS[test.what];
  const danger = openedUtc && neededTests(doc.crop).includes(test.what) ? "feed" : null;
  const to = test.laboratory ? ` to ${test.laboratory}` : "";
  const common = { part: test.id, name: doc.name, allDay: true, danger } as const;
  if (test.sentUtc) {
    const days = DUE.laboratoryDays;
    const atMs = test.expectedUtc
      ? Date.parse(test.expectedUtc)
      : Date.parse(test.sentUtc) + days.value * DAY_MS;
    const sent = `Sent${to} on ${dayText(Date.parse(test.sentUtc), ground.timeZone)}.`;
    const text = `${sent} ${openedUtc ? FEEDING : "Do not feed it before the result is here."}`;
    const source = test.expectedUtc ? null : days.source;
    return [
      itemOf(ground, { ...common, work: "result", verb: `result of ${what} awaited`, text, atMs, source }),
    ];
  }
  const plannedMs = test.dueUtc ? Date.parse(test.dueUtc) : (openMs ?? Date.parse(doc.storedUtc));
  // What is open is fed, whatever was planned: the sample was due before.
  const atMs = openedUtc ? Math.min(plannedMs, Date.parse(openedUtc)) : plannedMs;
  const text = `${openedUtc ? `${FEEDING} ` : ""}Sample it and send it${to}; ask for ion, unit and basis in print.`;
  return [itemOf(ground, { ...common, work: "send-sample", verb: `send a sample for ${what}`, text, atMs })];
}

/** A lot for which nobody has thought of a test that it needs. */
function untestedItem(doc: LotDoc, ground: Ground, openMs: number | null): DueItem[] {
  if (doc.route === "green-chop" || doc.route === "grazing") return [];
  const needed = neededTests(doc.crop);
  const papers = (doc.results ?? []).filter((result) => !isMoistureAlone(result)).length;
  const never = forgotten(doc);
  if (needed.length > 0 ? never.length === 0 : (doc.tests?.length ?? 0) + papers > 0) return [];
  const test = routeWaits(doc.route, doc.crop).find(({ what }) => what === "test");
  const { openedUtc } = doc;
  const atMs = openedUtc ? Date.parse(openedUtc) : (openMs ?? Date.parse(doc.storedUtc));
  const text = `${openedUtc ? `${FEEDING} ` : ""}${test?.text ?? ""}`;
  const of = never.length === 0 ? "" : ` for ${never.map((what) => TEST_WORDS[what]).join(" and ")}`;
  const common = { work: "send-sample", part: "", name: doc.name, verb: `send a sample${of}` } as const;
  const danger = openedUtc && never.length > 0 ? "feed" : null;
  return [itemOf(ground, { ...common, text, atMs, allDay: true, danger, source: test?.source ?? null })];
}

/**
 * The samples of a lot and their results.
 *
 * @param openMs when it is to be opened; null = not known
 */
export function testItems(doc: LotDoc, ground: Ground, openMs: number | null): DueItem[] {
  return [
    ...(doc.tests ?? []).flatMap((test) => testItem(doc, ground, openMs, test)),
    ...untestedItem(doc, ground, openMs),
  ];
}
