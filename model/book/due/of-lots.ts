import { HEAT_SOURCE, HEATING, type HeatStep, heatLog } from "../../harvest/route-details/heating.ts";
import { routeWaits } from "../../harvest/route-details/waits.ts";
import { WRAPPING } from "../../harvest/route-details/wrapping.ts";
import { DAY_MS, HOUR_MS } from "../../weather/clock.ts";
import type { Entry } from "../kinds.ts";
import { intervalText, runningIntervals } from "../label-interval.ts";
import type { LotDoc } from "../work-docs.ts";
import { wrapByMs, wrapText } from "./film.ts";
import { type DueItem, dayText, type Ground, hourText, isoOf, itemOf } from "./item.ts";
import { gasUntil, keepOutItem } from "./keep-out.ts";
import { testItems, untested } from "./of-tests.ts";
import { DUE } from "./records.ts";

const WEEK_MS = 7 * DAY_MS;
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
export function openingMs(doc: LotDoc): number | null {
  if (doc.openUtc) return Date.parse(doc.openUtc);
  return waitOver(doc)?.atMs ?? null;
}

/** What speaks against opening a lot at a moment: gas that is there still, and tests that nobody has the paper of. */
function openingCautions(doc: LotDoc, atMs: number, timeZone: string): string {
  const gas = gasUntil(doc.route, doc.crop, Date.parse(doc.storedUtc));
  const inGas = gas !== null && atMs < gas.untilMs;
  return [
    ...(inGas ? [`Silo gas: keep out until ${dayText(gas.untilMs, timeZone)}.`] : []),
    ...untested(doc, timeZone),
  ].join(" ");
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
  const text = [intervalText(running), openingCautions(doc, atMs, timeZone), said]
    .filter((part) => part !== "")
    .join(" ");
  const source = wait?.source ?? null;
  const common = { work: "open", part: "", name: doc.name, verb: "open it" } as const;
  return [itemOf(ground, { ...common, text, atMs, allDay: true, toDo: false, source })];
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
/** The worst row of the heat table that any place in the stack was last found at: a cool edge says nothing of the middle. */
function worstPlace(heating: NonNullable<LotDoc["heating"]>): HeatStep | null {
  const places = new Map<string, { atUtcMs: number; tempC: number }[]>();
  for (const { atUtc, tempC, place } of heating) {
    const key = (place ?? "").trim().toLowerCase();
    const probed = places.get(key) ?? [];
    places.set(key, probed);
    probed.push({ atUtcMs: Date.parse(atUtc), tempC });
  }
  const steps = [...places.values()].flatMap((probed) => heatLog(probed)?.now ?? []);
  return steps.sort((a, b) => b.fromF - a.fromF)[0] ?? null;
}

function probeItem({ lot, ground }: Told): DueItem[] {
  const { route, storedUtc, name } = lot.doc;
  const heating = lot.doc.heating ?? [];
  const storedMs = Date.parse(storedUtc);
  const readings = heating.map(({ atUtc }) => ({ atUtcMs: Date.parse(atUtc) }));
  const now = worstPlace(heating);
  const hot = now !== null && !COOL.includes(now.level);
  // Hay is asked about; whatever else was probed is told of when it was found hot.
  if (route !== "dry-hay" && !hot) return [];
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
      danger: hot ? "fire" : null,
      atMs: lastMs + everyH * HOUR_MS,
      repeat: { everyH, untilUtc },
      source: HEAT_SOURCE,
    }),
  ];
}

/** What is due of a stored lot. */
export function dueOfLot(lot: Entry<"lots">, ground: Ground): DueItem[] {
  const { name, route, crop, storedUtc, finishedUtc } = lot.doc;
  if (finishedUtc) return [];
  const told = { lot, ground };
  return [
    ...wrapItem(told),
    ...probeItem(told),
    ...keepOutItem({ name, route, crop, filledMs: Date.parse(storedUtc) }, ground),
    ...openItem(told),
    ...testItems(lot.doc, ground, openingMs(lot.doc)),
  ];
}
