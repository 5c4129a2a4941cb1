import type {
  CrewFieldRequest,
  CrewJobAnswer,
  CrewOp,
  CrewPlanAnswer,
  CrewPlanRequest,
} from "../../model/crew/index.ts";
import { isGather } from "../../model/crew/keys.ts";
import { fullTravel, travelMinutes } from "../../model/crew/travel.ts";
import { routeBand } from "../../model/crew/windows/band.ts";
import { localDayKey } from "../../model/weather/clock.ts";
import { clockText, dayDateText, fullText, utcMs } from "../format/farm-time.ts";
import { type Manner, quantityText } from "../format/manner.ts";
import { bandPct, listText } from "../format/words.ts";
import type { Caution } from "./all-faults.ts";
import { OP_LABELS } from "./crew-chart.ts";
import { farmWords, zoneWords } from "./farm-words.ts";
import { type BoxCode, feedLines } from "./feed-orders.ts";
import { isWith } from "./is-with.ts";
import { coordinates } from "./item-lines.ts";

export interface SheetLine {
  readonly key: string;
  readonly from: string;
  readonly to: string;
  readonly work: string;
  readonly field: string;
  readonly area: string;
  readonly customer: string | null;
  readonly place: string;
  /** "20 min drive" from where the machine was before; null where it is there already, or comes from home. */
  readonly drive: string | null;
  readonly person: string;
  /** "8–16 %", of a work that takes or wraps the crop; null where its moisture matters to nobody. */
  readonly moisture: string | null;
  /** What speaks against this hour, without full stops; it is done there all the same. */
  readonly cautions: readonly string[];
}

export interface SheetDay {
  readonly key: string;
  readonly day: string;
  readonly people: string;
  readonly lines: readonly SheetLine[];
}

export interface DaySheet {
  readonly machine: string;
  readonly days: readonly SheetDay[];
  /** "Home farm: 44.3000° N, 98.2000° W", of the places that the machine goes to and that nobody left where another is. */
  readonly places: readonly string[];
  /** What is to be known of the crops before the machine cuts or takes them. */
  readonly feed: readonly string[];
}

export interface SheetFacts {
  readonly request: CrewPlanRequest | null;
  /** What speaks against works as they stand. */
  readonly faults: readonly Caution[];
}

/** "2 pm"; "midnight", and of a work that ends on another day, that day with it. */
function endText({ startUtc, endUtc }: CrewJobAnswer, manner: Manner): string {
  const [startMs, endMs] = [utcMs(startUtc), utcMs(endUtc)];
  // A moment before its end a work that ends at midnight is still on its day.
  const dayOf = (ms: number) => localDayKey(ms, manner.zone);
  if (dayOf(startMs) === dayOf(endMs)) return clockText(endUtc, manner);
  if (dayOf(startMs) === dayOf(endMs - 1)) return "midnight";
  return `${clockText(endUtc, manner)} on ${dayDateText(endUtc, manner)}`;
}

/** Between which moistures a work takes the crop, as the plan reckons with it; bales are wrapped as they were made. */
function moistureText(op: CrewOp, field: CrewFieldRequest | undefined, manner: Manner): string | null {
  if (field === undefined || !(isGather(op) || op === "wrap")) return null;
  const [driest, wettest] = routeBand(field);
  return driest <= 0 && wettest >= 1 ? null : bandPct([driest, wettest], manner);
}

/** Whoever drives a cart behind a chopper is not among the people of the plan. */
const OWN_DRIVER = "its own driver";

const HELD = ": it is held there all the same";

/** What speaks against a work, each thing once, and once that it is done there all the same. */
function heldOnce(cautions: readonly string[]): string[] {
  const bare = [...new Set(cautions.map((text) => text.replace(HELD, "")))];
  const last = bare.findLast((text) => cautions.includes(`${text}${HELD}`));
  return bare.map((text) => (text === last ? `${text}${HELD}` : text));
}

/** Head of every page of the sheets: whose they are, which plan, and on which clock. */
export function sheetHead(
  { nowUtc, timeZone, revision }: Pick<CrewPlanAnswer, "nowUtc" | "timeZone" | "revision">,
  invented: boolean,
  reader: Manner,
): readonly [string, string, string] {
  const made = fullText(nowUtc, { ...reader, zone: timeZone });
  return [
    "Crew plan, day sheets",
    `From ${made}, ${zoneWords(timeZone)}`,
    invented ? "Invented demonstration crew" : `Version ${revision + 1} of the plan`,
  ];
}

/** For each machine that has work to come: what it does, day by day and hour after hour, where, for whom and with whom. */
export function daySheets(
  plan: CrewPlanAnswer,
  jobs: readonly CrewJobAnswer[],
  reader: Manner,
  { request, faults }: SheetFacts,
): DaySheet[] {
  const manner = { ...reader, zone: plan.timeZone };
  const sites = request?.sites ?? {};
  const fieldOf = (id: string) => request?.fields.find((field) => field.id === id);
  const siteOf = (fieldId: string) => fieldOf(fieldId)?.siteId ?? "";
  const placeName = (siteId: string) => sites[siteId]?.name || siteId;
  const spots = Object.fromEntries(Object.entries(sites).map(([id, { series }]) => [id, series.site]));
  const isApart = (siteId: string) => {
    const at = spots[siteId];
    return Object.entries(spots).every(
      ([id, spot]) => id === siteId || spot.latitude !== at?.latitude || spot.longitude !== at.longitude,
    );
  };
  const { travelMin } = fullTravel(spots, request?.travelMin ?? {}, request?.roadKmH);
  const line = (machineId: string, job: CrewJobAnswer, before: CrewJobAnswer | undefined): SheetLine => {
    const field = fieldOf(job.fieldId);
    const follows = job.machineId !== machineId;
    const minutes =
      before === undefined ? null : travelMinutes(travelMin, siteOf(before.fieldId), siteOf(job.fieldId));
    return {
      key: `${job.fieldId}/${job.op}`,
      from: clockText(job.startUtc, manner),
      to: endText(job, manner),
      work: follows ? `Behind ${plan.names.machines[job.machineId] ?? job.machineId}` : OP_LABELS[job.op],
      field: plan.names.fields[job.fieldId] ?? job.fieldId,
      area: field === undefined ? "" : quantityText(field.areaHa, "area", manner),
      customer: field?.customer ?? null,
      place: placeName(siteOf(job.fieldId)),
      drive: minutes === null || minutes === 0 ? null : `${minutes} min drive`,
      person: follows ? OWN_DRIVER : (plan.names.people[job.personId] ?? job.personId),
      moisture: follows ? null : moistureText(job.op, field, manner),
      cautions: heldOnce(
        faults
          .filter(({ fieldId, op }) => fieldId === job.fieldId && op === job.op)
          .map(({ text }) => farmWords(text.replace(`${plan.names.fields[job.fieldId]}: `, ""), manner))
          .map((text) => text.replace(/\.+$/, "")),
      ),
    };
  };
  return Object.entries(plan.names.machines).flatMap(([id, machine]) => {
    // What has begun needs no sheet, and whoever left the list none at all.
    if (request !== null && !request.machines.some((one) => one.id === id)) return [];
    const own = jobs
      .filter((job) => isWith(plan, job, id) && utcMs(job.endUtc) > utcMs(plan.nowUtc))
      .sort((a, b) => utcMs(a.startUtc) - utcMs(b.startUtc));
    if (own.length === 0) return [];
    const keys = [...new Set(own.map(({ startUtc }) => localDayKey(utcMs(startUtc), plan.timeZone)))];
    const days = keys.map((key): SheetDay => {
      const ofDay = own.filter(({ startUtc }) => localDayKey(utcMs(startUtc), plan.timeZone) === key);
      const lines = ofDay.map((job, i) => line(id, job, ofDay[i - 1]));
      return {
        key,
        day: dayDateText(ofDay[0]?.startUtc ?? plan.nowUtc, manner),
        people: listText([...new Set(lines.map(({ person }) => person))]),
        lines,
      };
    });
    const siteIds = [...new Set(own.map(({ fieldId }) => siteOf(fieldId)))];
    const places = siteIds.flatMap((siteId) => {
      const site = sites[siteId]?.series.site;
      return site === undefined || !isApart(siteId)
        ? []
        : [`${placeName(siteId)}: ${coordinates(site, manner)}`];
    });
    const cautioned = (isOne: (op: CrewOp) => boolean, code: BoxCode) => {
      const ids = new Set(own.filter(({ op }) => isOne(op)).map(({ fieldId }) => fieldId));
      return feedLines(plan, request?.fields.filter((field) => ids.has(field.id)) ?? [], code);
    };
    const feed = [
      ...cautioned((op) => op === "mow", "before-cutting"),
      // Whoever drives behind a chopper goes to the silo, and whoever wraps has hours for it.
      ...cautioned((op) => isGather(op) || op === "wrap", "feed"),
    ].map((text) => farmWords(text, manner));
    return [{ machine, days, places, feed }];
  });
}
