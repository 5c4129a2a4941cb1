import type { CrewJobAnswer, CrewOp, CrewPlanRequest, PreviousPlan } from "../../model/crew/index.ts";
import type { WeatherSeries } from "../../model/weather/index.ts";
import { readClock } from "../state/clock-text.ts";
import type { GoneNames } from "./gone.ts";

export interface SpotOfSite {
  readonly latitude: number;
  readonly longitude: number;
}

/** Weather of the places themselves: it came with a file, or was fetched for where they lie. */
export interface WeatherOfPlaces {
  readonly from: "file" | "forecast";
  readonly series: Readonly<Record<string, WeatherSeries>>;
  /** The file's now, or when it was fetched. */
  readonly nowUtc: string | null;
}

/** What a contractor has typed of a crew: everything of the question but the weather, which is the page's. */
export type CrewDraft = Omit<CrewPlanRequest, "sites" | "previous" | "nowUtc"> & {
  readonly siteNames: Readonly<Record<string, string>>;
  /** Where the places lie, as far as that was typed; the others are taken to be where the page's weather is. */
  readonly spots?: Readonly<Record<string, SpotOfSite>>;
  /** A place without weather of its own stands in the page's. */
  readonly weather?: WeatherOfPlaces;
  /** Stays with the plan, so that a calendar that took it in takes its changes too. */
  readonly planId: string;
  /** The demonstration's crew, as long as nobody changed it. */
  readonly invented?: boolean;
  /** What was given out last: later plans hold to it where they can, and say what moved. */
  readonly promised?: PreviousPlan;
  /** Names of those that were taken out of the lists: what was given out still names them. */
  readonly gone?: GoneNames;
  /** Whether the plan is in the book. */
  readonly inBook?: boolean;
};

type Fields = Readonly<Record<string, unknown>>;
const isRecord = (value: unknown): value is Fields => typeof value === "object" && value !== null;

export function draftOf(request: CrewPlanRequest, planId: string): CrewDraft {
  const { sites, previous, nowUtc, ...rest } = request;
  const siteNames = Object.fromEntries(Object.entries(sites).map(([id, { name }]) => [id, name ?? id]));
  return { ...rest, siteNames, planId };
}

/** Names that an earlier answer in a file has for those that its question does not list. */
function goneInFile({ previous, ...lists }: CrewPlanRequest): GoneNames {
  const names = isRecord(previous) && isRecord(previous.names) ? previous.names : {};
  const of = (key: keyof GoneNames, kind: "fields" | "machines" | "people") => {
    const known = isRecord(names[key]) ? names[key] : {};
    return Object.fromEntries(
      Object.entries(known).flatMap(([id, name]) =>
        typeof name === "string" && !lists[kind].some((one) => one.id === id) ? [[id, name]] : [],
      ),
    );
  };
  return {
    fields: of("fields", "fields"),
    machines: of("machines", "machines"),
    people: of("people", "people"),
    customers: of("customers", "fields"),
  };
}

/** Where the places of a question lie. */
export function spotsOf({ sites }: Pick<CrewPlanRequest, "sites">): Readonly<Record<string, SpotOfSite>> {
  return Object.fromEntries(
    Object.entries(sites).map(([id, { series }]) => {
      const { latitude, longitude } = series.site;
      return [id, { latitude, longitude }] as const;
    }),
  );
}

/** A crew from a file: its places and their weather stay its own. */
export function draftOfFile(request: CrewPlanRequest, planId: string): CrewDraft {
  const sites = Object.entries(request.sites);
  return {
    ...draftOf(request, planId),
    spots: spotsOf(request),
    weather: {
      from: "file",
      series: Object.fromEntries(sites.map(([id, { series }]) => [id, series])),
      nowUtc: request.nowUtc ?? null,
    },
    ...(request.previous == null
      ? {}
      : {
          promised: { jobs: request.previous.jobs, revision: request.previous.revision },
          gone: goneInFile(request),
        }),
  };
}

/**
 * The plan given out, as far as it can be held against this weather. Visits still to come of works that nobody asks for
 * any more stay in it, so that they are told to fall out.
 */
function previousIn(
  { promised, fields, gone, planId }: CrewDraft,
  early: readonly EarlyMowing[],
  fromUtc: string | undefined,
): PreviousPlan | null {
  if (promised === undefined || fromUtc === undefined) return null;
  const counts = ({ fieldId, op, startUtc }: CrewJobAnswer) =>
    !early.some((one) => one.fieldId === fieldId) &&
    (Date.parse(startUtc) >= Date.parse(fromUtc) ||
      fields.some(({ id, ops }) => id === fieldId && ops.includes(op)));
  const { fields: called = {}, customers = {} } = gone ?? {};
  const jobs = promised.jobs.filter(counts);
  return {
    jobs,
    revision: promised.revision,
    planId,
    cancelled: promised.cancelled,
    ...(gone ? { names: { fields: called, customers } } : {}),
  };
}

/** A field that was mown before the weather begins, with work to follow whose hours hang on the mowing. */
export interface EarlyMowing {
  readonly fieldId: string;
  readonly mownUtc: string;
}

/** Fields that cannot be planned in weather which begins after their mowing: neither to be mown again nor forgotten. */
function earlyMowings(
  { promised, fields }: Pick<CrewDraft, "promised" | "fields">,
  firstUtc: string | undefined,
  nowUtc: string | null,
): readonly EarlyMowing[] {
  if (promised === undefined || firstUtc === undefined) return [];
  const [firstMs, nowMs] = [Date.parse(firstUtc), Date.parse(nowUtc ?? firstUtc)];
  return promised.jobs.flatMap(({ fieldId, op, startUtc }) => {
    const field = fields.find(({ id }) => id === fieldId);
    if (op !== "mow" || field === undefined || Date.parse(startUtc) >= firstMs) return [];
    const gathers = field.ops.filter((one) => one === "bale" || one === "chop");
    const isBegun = (one: CrewOp) =>
      promised.jobs.some(
        (job) => job.fieldId === fieldId && job.op === one && Date.parse(job.startUtc) < nowMs,
      );
    return gathers.length === 0 || gathers.some(isBegun) ? [] : [{ fieldId, mownUtc: startUtc }];
  });
}

/** The fields of a crew that its question had to leave out. */
export function earlyIn(draft: CrewDraft, { sites, nowUtc }: CrewPlanRequest): readonly EarlyMowing[] {
  return earlyMowings(draft, firstHour(sites), nowUtc ?? null);
}

/** Of places in weather of their own, the latest first hour: from there on all of them have some. */
function firstHour(sites: CrewPlanRequest["sites"]): string | undefined {
  return Object.values(sites)
    .flatMap(({ series }) => series.hours.startUtc.slice(0, 1))
    .sort()
    .at(-1);
}

const HOUR_MS = 3_600_000;

/** From which hour a plan starts: a file's own, and this one where forecasts were fetched. */
function nowOf(weather: WeatherOfPlaces, nowMs: number): string | null {
  if (weather.from === "file") return weather.nowUtc;
  const ends = Object.values(weather.series).map(({ hours }) => Date.parse(hours.startUtc.at(-1) ?? ""));
  const hourMs = Math.floor(Math.min(nowMs, ...ends) / HOUR_MS) * HOUR_MS;
  return `${new Date(hourMs).toISOString().slice(0, 19)}Z`;
}

/** The question: the places in their own weather or the page's, and the plan that was given out last. */
export function requestOf(
  draft: CrewDraft,
  series: WeatherSeries,
  nowUtc: string | null,
  nowMs = Date.now(),
): CrewPlanRequest {
  const { siteNames, spots, weather, planId, invented, promised, gone, inBook, ...rest } = draft;
  const sites = Object.fromEntries(
    Object.entries(siteNames).map(([id, name]) => {
      const own = weather?.series[id] ?? series;
      const spot = spots?.[id];
      return [
        id,
        {
          name,
          series:
            spot && weather?.series[id] === undefined ? { ...own, site: { ...own.site, ...spot } } : own,
        },
      ];
    }),
  );
  const now = weather ? nowOf(weather, nowMs) : nowUtc;
  const first = firstHour(sites);
  const early = earlyMowings(draft, first, now);
  const isEarly = (fieldId: string) => early.some((one) => one.fieldId === fieldId);
  return {
    ...rest,
    fields: draft.fields.filter(({ id }) => !isEarly(id)),
    ...(draft.fixed ? { fixed: draft.fixed.filter(({ fieldId }) => !isEarly(fieldId)) } : {}),
    people: draft.people.map((person) => ({
      ...person,
      from: readClock(person.from, false) ?? person.from,
      to: readClock(person.to, true) ?? person.to,
    })),
    sites,
    nowUtc: now,
    previous: previousIn(draft, early, now ?? first),
  };
}

const withIds = (value: unknown) =>
  Array.isArray(value) &&
  value.length > 0 &&
  value.every((one) => isRecord(one) && typeof one.id === "string");

/** What the device kept, or null where it is none. The plan's own checks read the rest. */
export function readDraft(value: unknown): CrewDraft | null {
  if (!isRecord(value) || !isRecord(value.siteNames) || typeof value.planId !== "string") return null;
  if (!withIds(value.fields) || !withIds(value.machines) || !withIds(value.people)) return null;
  const whole = (value.fields as readonly Fields[]).every(
    ({ ops, swath, areaHa }) => Array.isArray(ops) && isRecord(swath) && typeof areaHa === "number",
  );
  return whole ? (value as unknown as CrewDraft) : null;
}
