import { TZDate } from "@date-fns/tz";
import ical, { ICalCalendarMethod, ICalEventStatus } from "ical-generator";
import { type CrewOp, type CrewPlanAnswer, OP_WORDS, shortHash } from "../../model/crew/index.ts";
import { csvTable } from "../../model/csv-table.ts";
import { isKnownTimeZone, localOffsetMs, localParts } from "../../model/weather/clock.ts";
import { timeZoneComponent } from "./time-zone-component.ts";

export interface PlanToExport {
  readonly jobs: readonly {
    readonly fieldId: string;
    readonly op: CrewOp;
    readonly machineId: string;
    readonly personId: string;
    readonly startUtc: string;
    readonly endUtc: string;
  }[];
  readonly revision?: number | undefined;
  readonly timeZone?: string | undefined;
  /** Work that began before this is done and no longer hangs on the weather. */
  readonly nowUtc?: string | undefined;
  readonly changes?:
    | readonly {
        readonly fieldId: string;
        readonly op: CrewOp;
        readonly fromUtc: string | null;
        readonly toUtc: string | null;
      }[]
    | undefined;
  /** Visits that fell out in this revision or one before, still to come. */
  readonly cancelled?: readonly CancelledVisit[] | undefined;
  /** Fields that the plan does not finish: a visit that is held there all the same is no ordinary one. */
  readonly left?:
    | readonly {
        readonly fieldId: string;
        readonly why?: string | undefined;
        readonly mownUtc?: string | null | undefined;
      }[]
    | undefined;
  /** Visits that a person moved to where they cannot be carried out. */
  readonly impossible?: readonly { readonly fieldId: string; readonly op: CrewOp }[] | undefined;
  readonly replay?:
    | readonly { readonly fieldId: string; readonly atRisk?: boolean | undefined }[]
    | undefined;
  readonly names?:
    | {
        readonly fields?: Readonly<Record<string, string>> | undefined;
        readonly machines?: Readonly<Record<string, string>> | undefined;
        readonly people?: Readonly<Record<string, string>> | undefined;
        /** Fields that nobody asks for any more: their visits are cancelled by name. */
        readonly gone?: Readonly<Record<string, string>> | undefined;
      }
    | undefined;
  /** Keeps the visits of two plans apart in one calendar; the same through all revisions of a plan. */
  readonly planId?: string | undefined;
  readonly title?: string | undefined;
}

type CancelledVisit = CrewPlanAnswer["cancelled"][number];

const HOUR_MS = 3_600_000;

/** What is to be said of a visit beside its hours: that it is impossible, or a mowing that would lie, first of all; empty where it is an ordinary one. */
function markOf(
  { left = [], replay = [], impossible = [], nowUtc }: PlanToExport,
  { fieldId, op, startUtc }: PlanToExport["jobs"][number],
): string {
  const isDone = nowUtc !== undefined && Date.parse(startUtc) < Date.parse(nowUtc);
  if (isDone) return "";
  if (impossible.some((one) => one.fieldId === fieldId && one.op === op)) return "cannot be carried out here";
  const field = left.find((one) => one.fieldId === fieldId);
  if (field !== undefined)
    return op === "mow" ? "do not mow, it would lie" : "in doubt, field not brought in";
  return replay.some((one) => one.fieldId === fieldId && one.atRisk === true) ? "at risk" : "";
}

/** Visits that are written as cancelled: those the plan tells, or what its changes dropped. */
function cancelledOf({ jobs, changes = [], cancelled = [] }: PlanToExport): readonly CancelledVisit[] {
  const dropped = changes.flatMap(({ fieldId, op, fromUtc, toUtc }): CancelledVisit[] => {
    if (fromUtc === null || toUtc !== null) return [];
    const told = cancelled.find(
      (one) => one.fieldId === fieldId && one.op === op && one.startUtc === fromUtc,
    );
    return [told ?? { fieldId, op, startUtc: fromUtc }];
  });
  const all = [...dropped, ...cancelled];
  const isSame = (a: { readonly fieldId: string; readonly op: string }, b: (typeof all)[number]) =>
    a.fieldId === b.fieldId && a.op === b.op;
  return all.filter(
    (visit, i) => !jobs.some((job) => isSame(job, visit)) && all.findIndex((one) => isSame(one, visit)) === i,
  );
}

/** The visits of a plan, those that fell out too, whatever the order and the writing of its keys and moments. */
export function visitsOf(plan: PlanToExport): readonly (readonly unknown[])[] {
  const held = plan.jobs.map(({ fieldId, op, machineId, personId, startUtc, endUtc }) => [
    fieldId,
    op,
    machineId,
    personId,
    Date.parse(startUtc),
    Date.parse(endUtc),
  ]);
  const gone = cancelledOf(plan).map(({ fieldId, op, startUtc }) => [fieldId, op, Date.parse(startUtc)]);
  const keyed = [...held, ...gone].map((visit) => ({ key: JSON.stringify(visit), visit }));
  return keyed.sort((a, b) => (a.key < b.key ? -1 : 1)).map(({ visit }) => visit);
}

/** The same visit has the same name in every export and every revision: plan, field and work. */
function uidOf(planId: string, fieldId: string, op: string): string {
  const part = (text: string) => encodeURIComponent(text.replaceAll(/\p{Cs}/gu, "\ufffd"));
  return `${[planId, fieldId, op].map(part).join(".")}@swathclock`;
}

/**
 * Of a plan that nobody named, such as one written by hand: by its crew, which stays while fields come and go. Whoever
 * wants two plans of one crew kept apart names them.
 */
function planIdOf({ timeZone, names }: PlanToExport): string {
  const { machines = {}, people = {} } = names ?? {};
  const crew = [machines, people].map((list) => Object.entries(list).sort(([a], [b]) => (a < b ? -1 : 1)));
  return `plan-${shortHash(JSON.stringify([timeZone ?? null, ...crew]))}`;
}

/** Names that were kept before control characters were refused: line breaks are escaped, the others have no place in TEXT. */
function printable(text: string): string {
  return text.replaceAll(/[^\P{Cc}\r\n]/gu, " ");
}

/** A value of type TEXT (RFC 5545, 3.3.11): no name breaks its line or says a second thing. */
function textValue(text: string): string {
  return text
    .replaceAll(/[\\;,]/g, "\\$&")
    .replaceAll(/\r\n|[\r\n]/g, "\\n")
    .replaceAll(/\p{Cc}/gu, " ");
}

/**
 * A plan as iCalendar (RFC 5545): times on the farm's clock with its VTIMEZONE, visits still to come tentative because
 * weather decides, visits that fell out cancelled, SEQUENCE = the plan's revision.
 *
 * @param stampUtcMs when the calendar is written
 */
export function planCalendar(plan: PlanToExport, stampUtcMs: number): string {
  const { jobs, names, planId = planIdOf(plan), revision = 0 } = plan;
  const gone = cancelledOf(plan);
  const zone = plan.timeZone !== undefined && isKnownTimeZone(plan.timeZone) ? plan.timeZone : "UTC";
  const nowMs = plan.nowUtc === undefined ? Number.NEGATIVE_INFINITY : Date.parse(plan.nowUtc);
  const times = [
    ...jobs.flatMap(({ startUtc, endUtc }) => [Date.parse(startUtc), Date.parse(endUtc)]),
    ...gone.flatMap(({ startUtc, endUtc = startUtc }) => [Date.parse(startUtc), Date.parse(endUtc)]),
  ];
  const calendar = ical({
    // The library escapes what events are called, and writes the name of a calendar as it is given.
    name: textValue(plan.title ?? "Crew plan"),
    prodId: { company: "Swathclock", product: "Crew plan", language: "EN" },
    method: ICalCalendarMethod.PUBLISH,
  });
  const inUtc = zone === "UTC";
  if (!inUtc) {
    const generator = () =>
      timeZoneComponent(zone, Math.min(stampUtcMs, ...times), Math.max(stampUtcMs, ...times));
    calendar.timezone({ name: zone, generator });
  }
  const stamp = new Date(stampUtcMs);
  const at = (utcMs: number) => (inUtc ? new Date(utcMs) : new TZDate(utcMs, zone));
  const named = (kind: "machines" | "people", id: string) => names?.[kind]?.[id] ?? id;
  const spans: [number, number][] = [];
  const event = (
    fieldId: string,
    op: CrewOp,
    startMs: number,
    endMs: number | null,
    status: ICalEventStatus,
    description: string | null,
    mark = "",
  ) => {
    spans.push([startMs, endMs ?? startMs]);
    calendar.createEvent({
      id: uidOf(planId, fieldId, op),
      sequence: revision,
      stamp,
      lastModified: stamp,
      start: at(startMs),
      ...(endMs === null ? {} : { end: at(endMs) }),
      ...(inUtc ? {} : { timezone: zone }),
      summary: printable(
        `${names?.fields?.[fieldId] ?? names?.gone?.[fieldId] ?? fieldId}: ${OP_WORDS[op]}${mark === "" ? "" : ` (${mark})`}`,
      ),
      description: description === null ? null : printable(description),
      status,
    });
  };
  for (const job of jobs) {
    const { fieldId, op, machineId, personId, startUtc, endUtc } = job;
    const why = plan.left?.find((one) => one.fieldId === fieldId)?.why;
    const startMs = Date.parse(startUtc);
    const who = `${named("machines", machineId)}, ${named("people", personId)}`;
    const begun = startMs < nowMs;
    event(
      fieldId,
      op,
      startMs,
      Date.parse(endUtc),
      begun ? ICalEventStatus.CONFIRMED : ICalEventStatus.TENTATIVE,
      begun ? who : `${who}\n${why === undefined ? "Holds if the weather does." : `Not brought in: ${why}.`}`,
      markOf(plan, job),
    );
  }
  for (const { fieldId, op, startUtc, endUtc } of gone) {
    // Of which nobody tells its end has none: an hour of its own would be made up.
    const endMs = endUtc === undefined ? null : Date.parse(endUtc);
    event(fieldId, op, Date.parse(startUtc), endMs, ICalEventStatus.CANCELLED, null);
  }
  // The library writes stamps on the clock of the calendar's zone; the standard wants them in UTC.
  const stampText = stamp.toISOString().slice(0, 19).replaceAll(/[-:]/g, "");
  const text = calendar.toString().replaceAll(/^(DTSTAMP|LAST-MODIFIED):[^\r\n]*/gm, `$1:${stampText}Z`);
  const whole = inUtc ? text : inUtcWhereTwice(headFirst(text), spans, zone);
  return `${whole.replace(/(\r\n)*$/, "")}\r\n`;
}

/**
 * The calendar's own properties before its first component (RFC 5545, 3.6), without the library's TIMEZONE-ID, which no
 * standard has.
 */
function headFirst(text: string): string {
  const [zoneLine = ""] = /^X-WR-TIMEZONE:[^\r\n]*\r\n/m.exec(text) ?? [];
  return text
    .replace(zoneLine, "")
    .replace(/^TIMEZONE-ID:[^\r\n]*\r\n/m, "")
    .replace(/^BEGIN:VTIMEZONE\r\n/m, `${zoneLine}$&`);
}

/** True for a moment that the clock shows for the second time, after it has gone back. */
function isShownAgain(utcMs: number, zone: string): boolean {
  const offset = localOffsetMs(zone, utcMs);
  const earlier = localOffsetMs(zone, utcMs - 3 * HOUR_MS);
  return earlier > offset && localOffsetMs(zone, utcMs - (earlier - offset)) === earlier;
}

/** A local time that comes twice means the first: a visit that begins or ends in the second is written in UTC. */
function inUtcWhereTwice(text: string, spans: readonly (readonly [number, number])[], zone: string): string {
  const utc = (ms: number) => new Date(ms).toISOString().slice(0, 19).replaceAll(/[-:]/g, "");
  // At the head of a line: a field may be called so.
  const [head = "", ...events] = text.split(/^BEGIN:VEVENT(?=\r\n)/m);
  const written = events.map((event, i) => {
    const [from, to] = spans[i] ?? [Number.NaN, Number.NaN];
    if (!isShownAgain(from, zone) && !isShownAgain(to, zone)) return event;
    return event
      .replace(/^DTSTART[;:][^\r\n]*/m, `DTSTART:${utc(from)}Z`)
      .replace(/^DTEND[;:][^\r\n]*/m, `DTEND:${utc(to)}Z`);
  });
  return [head, ...written].join("BEGIN:VEVENT");
}

const two = (value: number) => String(value).padStart(2, "0");

const PLAN_COLUMNS = [
  "fieldId",
  "field",
  "op",
  "machineId",
  "machine",
  "personId",
  "person",
  "startUtc",
  "endUtc",
  "startLocal",
  "endLocal",
  "timeZone",
  "note",
] as const;

/** A plan as a table, a line a visit, in the order of the work; a cell that a spreadsheet could take for a formula is text. */
export function planCsv(plan: PlanToExport): string {
  const zone = plan.timeZone !== undefined && isKnownTimeZone(plan.timeZone) ? plan.timeZone : "UTC";
  const local = (utc: string) => {
    const { dayKey, hour, minute } = localParts(Date.parse(utc), zone);
    return `${dayKey} ${two(hour)}:${two(minute)}`;
  };
  const { names } = plan;
  const rows = [...plan.jobs]
    .sort((a, b) => a.startUtc.localeCompare(b.startUtc) || a.fieldId.localeCompare(b.fieldId))
    .map(({ fieldId, op, machineId, personId, startUtc, endUtc }, i, sorted) => ({
      fieldId,
      field: names?.fields?.[fieldId] ?? fieldId,
      op,
      machineId,
      machine: names?.machines?.[machineId] ?? machineId,
      personId,
      person: names?.people?.[personId] ?? personId,
      startUtc,
      endUtc,
      startLocal: local(startUtc),
      endLocal: local(endUtc),
      timeZone: zone,
      note: markOf(plan, sorted[i] as PlanToExport["jobs"][number]),
    }));
  return csvTable(
    PLAN_COLUMNS,
    rows.map((row) => PLAN_COLUMNS.map((column) => row[column])),
  );
}
