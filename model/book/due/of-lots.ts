import { coefficient } from "../../coefficient.ts";
import { HEAT_SOURCE, HEATING, type HeatStep, heatLog } from "../../harvest/route-details/heating.ts";
import { routeWaits } from "../../harvest/route-details/waits.ts";
import { WRAPPING } from "../../harvest/route-details/wrapping.ts";
import { DAY_MS, HOUR_MS } from "../../weather/clock.ts";
import type { Entry } from "../kinds.ts";
import { intervalText, runningIntervals } from "../label-interval.ts";
import type { LabTest, LotDoc, LotTestDoc } from "../work-docs.ts";
import { type DueItem, dayText, type Ground, hourText, isoOf, itemOf } from "./item.ts";
import { wrapByMs, wrapText } from "./of-cuts.ts";

export const DUE = {
  laboratoryDays: coefficient(
    7,
    "d",
    "assumed",
    "from posting a sample to its result; set the date yourself",
    [2, 21],
  ),
  probeH: coefficient(24, "h", "published", "probe daily until it is steady (Purdue, Penn State)", null),
  hotProbeH: coefficient(
    2,
    "h",
    "published",
    "from 150 °F on every 2 hours, the strictest of the sources",
    [2, 24],
  ),
} as const;

const WEEK_MS = 7 * DAY_MS;
const TEST_WORDS: Readonly<Record<LabTest, string>> = {
  nitrate: "nitrate",
  "prussic-acid": "prussic acid",
  moisture: "moisture",
  fermentation: "fermentation",
  "feed-value": "feed value",
};

interface Told {
  readonly lot: Entry<"lots">;
  readonly ground: Ground;
}

/** When a lot's waiting time is over; null for what does not ferment. */
function waitOver({ route, crop, wrappedUtc, storedUtc }: LotDoc) {
  const ferment = routeWaits(route, crop).find(({ what }) => what === "ferment");
  if (!ferment || ferment.amount === null) return null;
  const atMs = Date.parse(wrappedUtc ?? storedUtc) + ferment.amount * WEEK_MS;
  return { atMs, weeks: ferment.amount, source: ferment.source };
}

/** When it is to be opened: as the user said, else when the wait is over. */
function openingMs(doc: LotDoc): number | null {
  if (doc.openUtc) return Date.parse(doc.openUtc);
  return waitOver(doc)?.atMs ?? null;
}

function openItem({ lot, ground }: Told): DueItem[] {
  const { doc } = lot;
  const wait = waitOver(doc);
  const atMs = openingMs(doc);
  if (doc.openedUtc || atMs === null) return [];
  const over = wait === null ? "" : dayText(wait.atMs, ground.timeZone);
  const early = wait !== null && atMs < wait.atMs;
  const { sprays, timeZone } = ground;
  const running = runningIntervals(sprays, ["feeding"], atMs, timeZone, Date.parse(doc.storedUtc));
  const said = early
    ? `The ${wait.weeks} weeks of fermenting are over on ${over} only. Test it before any animal gets it.`
    : `${wait === null ? "As planned." : `${wait.weeks} weeks of fermenting are over on ${over}.`} Test it before any animal gets it.`;
  const text = `${intervalText(running)} ${said}`.trim();
  const source = wait?.source ?? null;
  const common = { work: "open", part: "", name: doc.name, verb: "open it" } as const;
  return [itemOf(ground, { ...common, text, atMs, allDay: true, toDo: false, source })];
}

function keepOutItem({ lot, ground }: Told): DueItem[] {
  const { doc } = lot;
  const gas = routeWaits(doc.route, doc.crop).find(({ what }) => what === "silo-gas");
  if (!gas || gas.amount === null) return [];
  const atMs = Date.parse(doc.storedUtc) + gas.amount * WEEK_MS;
  const common = {
    work: "keep-out-over",
    part: "",
    name: doc.name,
    verb: "silo gas, keep out until then",
  } as const;
  return [itemOf(ground, { ...common, text: gas.text, atMs, allDay: true, toDo: false, source: gas.source })];
}

function wrapItem({ lot, ground }: Told): DueItem[] {
  const { route, wrappedUtc, openedUtc, storedUtc, name } = lot.doc;
  if (route !== "wrapped-bales" || wrappedUtc || openedUtc) return [];
  const baledMs = Date.parse(storedUtc);
  const byMs = wrapByMs(baledMs);
  const text = `Film on by ${hourText(byMs, ground.timeZone)}. ${wrapText(baledMs, ground.nowUtcMs)}`;
  const { source } = WRAPPING.lateH;
  return [itemOf(ground, { work: "wrap", part: "", name, verb: "wrap", text, atMs: byMs, byMs, source })];
}

const COOL: readonly HeatStep["level"][] = ["steady", "watch"];

/** The next probe of new hay; a hot stack is probed on past its six weeks. */
function probeItem({ lot, ground }: Told): DueItem[] {
  const { route, storedUtc, heating, name } = lot.doc;
  if (route !== "dry-hay") return [];
  const storedMs = Date.parse(storedUtc);
  const readings = (heating ?? []).map(({ atUtc, tempC }) => ({ atUtcMs: Date.parse(atUtc), tempC }));
  const now = heatLog(readings)?.now ?? null;
  const hot = now !== null && !COOL.includes(now.level);
  const warm = now !== null && now.level !== "steady";
  const endMs = storedMs + HEATING.watchDays.value * DAY_MS;
  if (ground.nowUtcMs >= endMs && !warm) return [];
  const everyH = hot ? DUE.hotProbeH.value : DUE.probeH.value;
  const lastMs = readings.reduce((latest, { atUtcMs }) => Math.max(latest, atUtcMs), storedMs);
  // A hot stack is asked for a day at a time: the next reading says how it goes on.
  const dayOn = Math.max(lastMs, ground.nowUtcMs) + DAY_MS;
  const untilUtc = isoOf(hot ? dayOn : Math.max(endMs, dayOn));
  const text = now?.action ?? "Probe daily until it is steady.";
  return [
    itemOf(ground, {
      work: "probe",
      part: "",
      name,
      verb: hot ? "probe the stack, it is hot" : "probe the stack",
      text,
      atMs: lastMs + everyH * HOUR_MS,
      repeat: { everyH, untilUtc },
      source: HEAT_SOURCE,
    }),
  ];
}

function testItem({ lot, ground }: Told, test: LotTestDoc): DueItem[] {
  const { doc } = lot;
  if (test.resultUtc || doc.results?.some(({ testId }) => testId === test.id)) return [];
  const what = TEST_WORDS[test.what];
  const to = test.laboratory ? ` to ${test.laboratory}` : "";
  const common = { part: test.id, name: doc.name, allDay: true } as const;
  if (test.sentUtc) {
    const days = DUE.laboratoryDays;
    const atMs = test.expectedUtc
      ? Date.parse(test.expectedUtc)
      : Date.parse(test.sentUtc) + days.value * DAY_MS;
    const text = `Sent${to} on ${dayText(Date.parse(test.sentUtc), ground.timeZone)}. Do not feed it before the result is here.`;
    const source = test.expectedUtc ? null : days.source;
    return [
      itemOf(ground, { ...common, work: "result", verb: `result of ${what} awaited`, text, atMs, source }),
    ];
  }
  const atMs = test.dueUtc ? Date.parse(test.dueUtc) : (openingMs(doc) ?? Date.parse(doc.storedUtc));
  const text = `Sample it and send it${to}; ask for ion, unit and basis in print.`;
  return [itemOf(ground, { ...common, work: "send-sample", verb: `send a sample for ${what}`, text, atMs })];
}

/** A lot for which nobody has thought of a test. */
function untestedItem({ lot, ground }: Told): DueItem[] {
  const { doc } = lot;
  if ((doc.tests?.length ?? 0) + (doc.results?.length ?? 0) > 0) return [];
  if (doc.route === "green-chop" || doc.route === "grazing") return [];
  const test = routeWaits(doc.route, doc.crop).find(({ what }) => what === "test");
  const atMs = openingMs(doc) ?? Date.parse(doc.storedUtc);
  const text = test?.text ?? "";
  const common = { work: "send-sample", part: "", name: doc.name, verb: "send a sample" } as const;
  return [itemOf(ground, { ...common, text, atMs, allDay: true, source: test?.source ?? null })];
}

/** What is due of a stored lot. */
export function dueOfLot(lot: Entry<"lots">, ground: Ground): DueItem[] {
  if (lot.doc.finishedUtc) return [];
  const told = { lot, ground };
  return [
    ...wrapItem(told),
    ...probeItem(told),
    ...keepOutItem(told),
    ...openItem(told),
    ...(lot.doc.tests ?? []).flatMap((test) => testItem(told, test)),
    ...untestedItem(told),
  ];
}
