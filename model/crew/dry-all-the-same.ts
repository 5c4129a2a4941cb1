import type { BuiltCrew } from "./build-grid.ts";
import { CREW_DEFAULTS } from "./defaults.ts";
import { isByDayOnly, lightSlots } from "./grid-slots.ts";
import { isGather } from "./keys.ts";
import type { CrewJob } from "./problem.ts";
import { passesOf } from "./replay.ts";
import { verdictOf } from "./verdict.ts";
import { membersNeeded } from "./windows/fit-reader.ts";

/** What is asked of the members for a gathering. */
export interface AskedDry {
  /** So large a share must find it fit; absent = that of the windows. */
  readonly share?: number | undefined;
  /** True = crop drier than its band will do too. */
  readonly tooDry?: boolean | undefined;
}

/**
 * Whether enough members find the crop fit to be taken at the hours of a gathering, after its own mowing, tedding and
 * raking. A window reckons with usual hours of these, and may be narrower than what the replay of a plan calls dry.
 *
 * @param own works of the field; false where the gathering or one before it is not among them
 */
export function isDryAllTheSame(
  built: BuiltCrew,
  fieldId: string,
  own: readonly CrewJob[],
  { share, tooDry: mayBeTooDry = false }: AskedDry = {},
): boolean {
  const { grid, request } = built;
  const f = request.fields.findIndex(({ id }) => id === fieldId);
  const [asked, site] = [request.fields[f], built.sites[request.fields[f]?.siteId ?? ""]];
  const members = built.members[f] ?? [];
  const at = asked?.ops.findIndex(isGather) ?? -1;
  const works = asked?.ops.slice(0, at + 1).map((op) => own.find((job) => job.op === op)) ?? [];
  const [mow, gather] = [works[0], works[at]];
  if (asked === undefined || site === undefined || mow === undefined || gather === undefined) return false;
  const cutUtcMs = (mow.startUtcMs + mow.endUtcMs) / 2;
  if (works.includes(undefined) || members.some(({ weather }) => cutUtcMs < weather.startUtcMs)) return false;
  const slotOf = (utcMs: number) => (utcMs - grid.startUtcMs) / grid.slotMs;
  const lit = lightSlots(grid, site, isByDayOnly(request));
  const [from, to] = [Math.floor(slotOf(gather.startUtcMs)), Math.ceil(slotOf(gather.endUtcMs))];
  if (from < 0 || to > grid.count || lit.subarray(from, to).includes(0)) return false;
  const passes = passesOf(own);
  const span = { fromUtcMs: gather.startUtcMs, toUtcMs: gather.endUtcMs };
  const found = members.map((member) => verdictOf(asked, member, member.course(cutUtcMs, passes))(span));
  const need = membersNeeded(members, share ?? request.readyShare ?? CREW_DEFAULTS.readyShare.value);
  const [fit, tooDry] = [found.filter(({ isFit }) => isFit), found.filter(({ isTooDry }) => isTooDry)];
  return fit.length >= need && (mayBeTooDry || 2 * tooDry.length <= members.length);
}
