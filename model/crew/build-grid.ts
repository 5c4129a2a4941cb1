import { HARVEST_DEFAULTS } from "../harvest/routes.ts";
import { workSpans } from "../harvest/work-hours.ts";
import type { Outcome } from "../limits.ts";
import { DAY_MS, MINUTE_MS } from "../weather/clock.ts";
import { type CartShare, cartShareOf, withCarts } from "./carts.ts";
import { CREW_CHOICES, CREW_DEFAULTS } from "./defaults.ts";
import {
  allFixed,
  heldOpsOf,
  type NotBegun,
  notBegun,
  type PlacedWork,
  placedWork,
  withThoseGone,
} from "./fixed-work.ts";
import {
  type Grid,
  type GridField,
  type GridFixed,
  type GridResource,
  middleSlot,
  stretchEnds,
} from "./grid.ts";
import { gridField, neverServed, passesOf, unreckoned } from "./grid-field.ts";
import { freeSlots, isByDayOnly, lightSlots, memberStep, opOfKind } from "./grid-slots.ts";
import type { CrewOp } from "./keys.ts";
import { withoutMissedPasses } from "./missed-passes.ts";
import { assumptionsOf, earlyWarning, warningsOf } from "./plan-words.ts";
import type { CrewPlanRequest } from "./request.ts";
import { beforeWeather, checkTimes } from "./time-checks.ts";
import { fullTravel, travelMinutes } from "./travel.ts";
import type { FieldWindows, MowingHours } from "./windows/field-windows.ts";
import { drySlots } from "./windows/hazards.ts";
import { type MemberSwath, memberSwaths, type ParameterStore } from "./windows/member-swath.ts";
import type { SlotFrame } from "./windows/runs.ts";
import { type SiteWeather, siteWeathers } from "./windows/site-weather.ts";
import { windowStore } from "./windows/window-store.ts";

/** The task on the grid, and what was read to make it. */
export interface BuiltCrew {
  readonly grid: Grid;
  readonly request: CrewPlanRequest;
  readonly sites: Readonly<Record<string, SiteWeather>>;
  readonly members: readonly (readonly MemberSwath[])[];
  readonly windows: readonly FieldWindows[];
  readonly travelMin: Readonly<Record<string, number>>;
  readonly carts: CartShare;
  /** Whether the windows were read from every member. */
  readonly read: "all" | "some";
  /** Fields whose windows were read again, because the replay of a plan spoke against them. */
  readonly reread: readonly string[];
  /** Fields whose windows were read by the replay itself, because those at usual hours failed them. */
  readonly told: readonly string[];
  /** Those among them that got theirs so that all fields together find better places. */
  readonly widened: readonly string[];
  /** Fields of which promised hours stay a choice that their windows as they are read now would not have. */
  readonly promised: readonly string[];
  readonly timeZone: string;
  readonly nowUtcMs: number;
  /** Work that the new plan had no say in: done, under way or promised. */
  readonly placed: readonly PlacedWork[];
  /** Visits of the plan before that were due and are planned anew. */
  readonly notBegun: readonly NotBegun[];
  /** From when on all sites have weather. */
  readonly weatherFromUtcMs: number;
  readonly assumptions: readonly string[];
  readonly warnings: readonly string[];
}

/** Work done up to so long before the weather has slots of its own. */
const MOST_PAST_MS = 14 * DAY_MS;

/** Fields whose windows are known, of all. */
export interface FieldsDone {
  readonly done: number;
  readonly of: number;
}

/** What is known of another task that the same field stands in: its slots, weather and swaths, which are taken as they are. */
export interface KnownField extends Pick<BuiltCrew, "sites"> {
  readonly frame: SlotFrame;
  readonly members: readonly MemberSwath[];
}

/** Windows, durations, hours and drives of a question that has passed its checks. */
export function buildGrid(
  request: CrewPlanRequest,
  mostMembers?: number,
  within?: KnownField,
): Outcome<BuiltCrew> {
  const steps = buildGridByField(request, mostMembers, within);
  for (;;) {
    const step = steps.next();
    if (step.done) return step.value;
  }
}

/**
 * The same, a field at a time: whoever shows progress or may be stopped rests in between.
 *
 * @param mostMembers windows are read from about so many members where there are twice as many: a first picture in a
 *   fraction of the time
 * @param within another task to be kept to, of whose one field all fields here are; absent = as many slots as the question
 *   and its weather ask for
 */
export function* buildGridByField(
  asked: CrewPlanRequest,
  mostMembers = Number.POSITIVE_INFINITY,
  within?: KnownField,
): Generator<FieldsDone, Outcome<BuiltCrew>> {
  const known = within?.sites;
  const askedNowMs = asked.nowUtc ? Date.parse(asked.nowUtc) : null;
  const weathers =
    known === undefined
      ? siteWeathers(asked.sites, askedNowMs, asked.seed ?? 1)
      : ({ ok: true, value: known } as const);
  if (!weathers.ok) return weathers;
  const sites = weathers.value;
  const all = Object.values(sites);
  const weatherFrom = Math.max(...all.map(({ central }) => central.weather.startUtcMs));
  const weatherTo = Math.min(...all.map(({ central }) => central.usableUntilUtcMs));
  const nowUtcMs = askedNowMs ?? weatherFrom;
  const fixed = allFixed(asked, nowUtcMs);
  const { request, assumed } = withoutMissedPasses(withThoseGone(asked, nowUtcMs), fixed, nowUtcMs);
  const firstSite = request.fields[0]?.siteId ?? "";
  const timeZone = request.sites[firstSite]?.series.site.timeZone ?? "UTC";
  const slotMs = (request.slotMin ?? CREW_CHOICES.slotMin.value) * MINUTE_MS;
  const issues = checkTimes(request, fixed, nowUtcMs, weatherFrom, weatherTo);
  if (issues.length > 0) return { ok: false, issues };

  const starts = fixed.map((held) => Date.parse(held.asked.startUtc));
  // What was done longest ago stands at the edge of the grid.
  const earliest = Math.max(Math.min(nowUtcMs, ...starts), weatherFrom - MOST_PAST_MS);
  const startUtcMs =
    within?.frame.startUtcMs ?? weatherFrom + Math.floor((earliest - weatherFrom) / slotMs) * slotMs;
  const horizonMs = (request.horizonDays ?? CREW_CHOICES.horizonDays.value) * DAY_MS;
  // A promise further off is kept in sight.
  const lastMs = Math.max(nowUtcMs + horizonMs, ...starts.map((ms) => ms + DAY_MS));
  const endUtcMs =
    within === undefined ? Math.min(weatherTo, lastMs) : startUtcMs + within.frame.count * slotMs;
  const frame: SlotFrame = { startUtcMs, slotMs, count: Math.floor((endUtcMs - startUtcMs) / slotMs) };
  const plannedMs = Math.min(weatherTo, nowUtcMs + horizonMs) - startUtcMs;
  const lastSlot = Math.min(frame.count, Math.floor(plannedMs / slotMs)) - 1;
  const nowSlot = Math.ceil((nowUtcMs - startUtcMs) / slotMs);

  const everHour = [{ startMs: startUtcMs - DAY_MS, endMs: endUtcMs + DAY_MS }];
  const people = request.people.map((person): GridResource => {
    const hours = workSpans(timeZone, person, startUtcMs - DAY_MS, endUtcMs + DAY_MS);
    const freeUntil = stretchEnds(freeSlots(frame, hours, person.offUtc));
    const hoursUntil = stretchEnds(freeSlots(frame, hours, undefined));
    const off = freeSlots(frame, everHour, person.offUtc).map((there) => 1 - there);
    return { id: person.id, op: null, freeUntil, hoursUntil, off };
  });
  const siteIds = Object.keys(request.sites).sort();
  const places = Object.fromEntries(
    siteIds.map((id) => [id, request.sites[id]?.series.site ?? { latitude: 0, longitude: 0 }]),
  );
  const { travelMin, reckoned } = fullTravel(places, request.travelMin ?? {}, request.roadKmH);
  const travelSlots = Int32Array.from({ length: siteIds.length ** 2 }, (_, i) => {
    const [a, b] = [siteIds[Math.floor(i / siteIds.length)] ?? "", siteIds[i % siteIds.length] ?? ""];
    return Math.ceil(((travelMinutes(travelMin, a, b) ?? 0) * MINUTE_MS) / slotMs - 1e-9);
  });
  // The machines of the crew today: those gone since carry nothing.
  const carts = cartShareOf(asked, fixed, { fromUtcMs: nowUtcMs, toUtcMs: endUtcMs });
  const machines = withCarts(
    request,
    carts,
    request.machines.map(
      (machine): GridResource => ({
        id: machine.id,
        op: opOfKind(machine.kind),
        freeUntil: stretchEnds(freeSlots(frame, everHour, machine.offUtc)),
      }),
    ),
  );
  const placed = placedWork(request, asked.machines, carts, fixed, frame, nowUtcMs, people, travelMin);
  if (!placed.ok) return placed;
  const unseenMowings = beforeWeather(request, placed.value, frame, weatherFrom);
  if (unseenMowings.length > 0) return { ok: false, issues: unseenMowings };

  const parameters: ParameterStore = new Map();
  const seed = request.seed ?? 1;
  const daylightOnly = isByDayOnly(request);
  const readyShare = request.readyShare ?? CREW_DEFAULTS.readyShare.value;
  const mostOfSite = Math.max(1, ...all.map((site) => site.members.length));
  const step = Math.max(memberStep(request, sites, frame, nowSlot), Math.floor(mostOfSite / mostMembers));
  const allSlots = Array.from({ length: frame.count }, (_, t) => t);
  const windowsOf = windowStore(request.fields, frame, readyShare, lastSlot);
  const members: (readonly MemberSwath[])[] = [];
  const windows: FieldWindows[] = [];
  const fields: GridField[] = [];
  const early: string[] = [];
  for (const field of request.fields) {
    yield { done: fields.length, of: request.fields.length };
    const site = sites[field.siteId] as SiteWeather;
    const maxRain = HARVEST_DEFAULTS.carriesAfterMm[field.swath.soil].value;
    const own = within?.members ?? memberSwaths(site, field.swath, maxRain, seed, parameters);
    members.push(own);
    const read = own.filter((_, i) => i % step === 0);
    const held = placed.value.filter(({ asked }) => asked.fieldId === field.id);
    const light = lightSlots(frame, site, daylightOnly);
    const dry = drySlots(read, frame, readyShare, maxRain);
    const both = (other: Uint8Array) => dry.map((yes, t) => (yes === 1 && other[t] === 1 ? 1 : 0));
    const mowOpen = both(light);
    const fixedOf = (op: CrewOp): GridFixed | null => {
      const found = held.find(({ asked }) => asked.op === op);
      if (found === undefined) return null;
      const { start, end, machine, person, moments } = found;
      return { start, end, machine, person, moments };
    };
    const mow = fixedOf("mow");
    const mownAt = mow === null ? null : middleSlot(mow.start, mow.end);
    // Crop that was mown before the weather begins has no course.
    const seen = (q: number) => frame.startUtcMs + q * slotMs >= weatherFrom;
    const slotsAhead = (open: Uint8Array) => allSlots.filter((t) => t >= nowSlot && open[t] === 1);
    const mown = mownAt === null ? null : [mownAt].filter(seen);
    const dryByDay = both(lightSlots(frame, site, true));
    // Whatever the crew's hours: with more of them no window becomes another. Crop that is mown is held against crop mown
    // then or later, so that its windows end where the rain or the sun ends them.
    const hours: MowingHours = {
      asked: mown ?? slotsAhead(mowOpen),
      telling:
        mownAt === null
          ? slotsAhead(dryByDay)
          : allSlots.filter((t) => seen(t) && (t === mownAt || (t > mownAt && dryByDay[t] === 1))),
    };
    const past = held.filter(({ moments }) => moments.fromUtcMs < nowUtcMs);
    const ahead: MowingHours = { asked: slotsAhead(mowOpen), telling: slotsAhead(dryByDay) };
    const asIfFree =
      past.length === held.length
        ? null
        : { hours: past.some((one) => one.asked.op === "mow") ? hours : ahead, held: heldOpsOf(past) };
    const heldOps = heldOpsOf(held);
    const passes = passesOf(field, request, slotMs / MINUTE_MS, timeZone);
    const found = windowsOf(field, read, own, hours, passes, heldOps, asIfFree);
    windows.push(found);
    const broken = held.some(({ brokeOff }) => brokeOff !== null);
    const unseen = mownAt !== null && !seen(mownAt);
    if (unseen) early.push(earlyWarning(field));
    fields.push(
      gridField(
        field,
        request,
        carts,
        frame,
        siteIds,
        broken ? neverServed(found) : unseen ? unreckoned(found, mownAt, heldOps.gatherStart) : found,
        { mowOpen, light, dry: drySlots(read, frame, readyShare, null) },
        fixedOf,
        nowUtcMs,
      ),
    );
  }

  const grid: Grid = {
    startUtcMs,
    slotMs,
    count: frame.count,
    nowSlot,
    siteIds,
    travelSlots,
    fields,
    machines,
    people,
  };
  return {
    ok: true,
    value: {
      grid,
      request,
      sites,
      members,
      windows,
      travelMin,
      carts,
      read: step === 1 ? "all" : "some",
      reread: [],
      told: [],
      widened: [],
      promised: [],
      timeZone,
      nowUtcMs,
      placed: placed.value,
      notBegun: notBegun({ ...asked, fields: request.fields }, nowUtcMs),
      weatherFromUtcMs: weatherFrom,
      assumptions: assumptionsOf(request, sites, {
        readyShare,
        daylightOnly,
        reckoned,
        step,
        carts,
        assumed,
      }),
      warnings: [...warningsOf(request, sites, timeZone), ...early],
    },
  };
}
