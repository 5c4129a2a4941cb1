import { inTen } from "../odds/in-ten.ts";
import { WIDENED_TEXT } from "../odds/widen.ts";
import { type CartShare, cartWords } from "./carts.ts";
import { CREW_DEFAULTS } from "./defaults.ts";
import { isGather } from "./keys.ts";
import { WET_SHARE } from "./replay.ts";
import type { CrewFieldRequest, CrewPlanRequest } from "./request.ts";
import type { SiteWeather } from "./windows/site-weather.ts";
import { fieldName, listWords, someWords } from "./words.ts";

/** What a plan assumes and what should be looked at, in words. */

interface Reckoning {
  readonly readyShare: number;
  readonly daylightOnly: boolean;
  /** Pairs of sites whose drive was reckoned from their places. */
  readonly reckoned: number;
  /** Windows are read from every so-manieth member. */
  readonly step: number;
  readonly carts: CartShare;
  /** What was taken as given of the question itself. */
  readonly assumed: readonly string[];
}

export function assumptionsOf(
  request: CrewPlanRequest,
  sites: Readonly<Record<string, SiteWeather>>,
  { readyShare, daylightOnly, reckoned, step, carts, assumed }: Reckoning,
): string[] {
  const said: string[] = [];
  const kinds = new Set(Object.values(sites).map(({ kind }) => kind));
  if (kinds.has("members") || kinds.has("widened")) {
    said.push(
      `A work may start once the chance that the crop is ready for it is ${Math.round(readyShare * 100) / 10} in 10.`,
    );
    said.push("Of hours that cost the plan nothing, those are taken that keep most over the members.");
    if (step > 1) said.push(`Windows are read from one member in ${step}; the replay uses all of them.`);
  }
  if (kinds.has("widened")) said.push(WIDENED_TEXT);
  if (kinds.has("known")) said.push("Weather that is past is taken as known: no chance is told for it.");
  said.push(
    `Crop that is taken too wet or in rain counts as ${Math.round(100 * (1 - WET_SHARE))} % lost (assumed).`,
  );
  said.push(...unevenWords(request, sites), ...namelessWords(request));
  if (daylightOnly) said.push("Nobody works in the dark.");
  if (request.fields.some(({ ops }) => ops.includes("wrap"))) {
    said.push(`Wrapping starts within ${CREW_DEFAULTS.wrapWithinH.value} hours of the end of baling.`);
  }
  if (request.fields.some(({ ops }) => ops.includes("ted"))) {
    said.push(
      "Windows reckon with tedding the morning after the mowing; the replay takes it when the plan does it.",
    );
  }
  said.push(...cartWords(request, carts));
  if (reckoned > 0) {
    said.push(
      `Drives between ${reckoned} ${reckoned === 1 ? "pair" : "pairs"} of sites are reckoned from their places: ${request.roadKmH ?? CREW_DEFAULTS.roadKmH.value} km/h, roads ${CREW_DEFAULTS.detour.value} times the straight line (assumed).`,
    );
  }
  if (request.machines.some(({ haPerH }) => haPerH === undefined)) {
    said.push(
      "Machines without a rate work as fast as typical ones (from memory, in the manner of ASAE D497).",
    );
  }
  return [...said, ...assumed];
}

/** That calendars do not know the visits of this plan by those of the one before. */
function namelessWords({ previous }: CrewPlanRequest): string[] {
  if (previous == null || previous.planId !== undefined) return [];
  return [
    "The plan before was given without its planId: calendars that took its visits in under another take these for new ones.",
  ];
}

/** Of fields whose crop nothing takes in this plan: that they count whole, and that no replay tells of them. */
function mownOnlyWords({ fields }: CrewPlanRequest): string[] {
  const names = fields.filter(({ ops }) => !ops.some(isGather)).map(fieldName);
  if (names.length === 0) return [];
  const isOne = names.length === 1;
  return [
    `${someWords(names)}: no baling or chopping is asked for, so ${isOne ? "it counts" : "they count"} at full value, whatever weather follows the last work, and no chance is told.`,
  ];
}

/** That what is told of all fields at once is of fewer weathers than some sites have. */
function unevenWords(
  { fields, sites: asked }: CrewPlanRequest,
  sites: Readonly<Record<string, SiteWeather>>,
): string[] {
  const used = Object.entries(sites).filter(([id]) => fields.some(({ siteId }) => siteId === id));
  const counts = used.map(([, { members }]) => members.length);
  const [least, most] = [Math.min(...counts), Math.max(...counts)];
  if (least === most) return [];
  const each = used.map(([id, { members }]) => `${asked[id]?.name ?? id} ${members.length}`);
  return [
    `The sites have unlike numbers of weathers (${someWords(each)}): what the plan is worth, and the chance that all fields are dry, are of the first ${least === 1 ? "one" : least} of each; the chance of a field is of all its site has.`,
  ];
}

/** What should be looked at in the weather, by the name of its site. */
export function warningsOf(
  request: CrewPlanRequest,
  sites: Readonly<Record<string, SiteWeather>>,
  timeZone: string,
): string[] {
  const named = (id: string) => request.sites[id]?.name ?? id;
  const said = Object.entries(sites).flatMap(([id, { central, leftOut }]) => [
    ...central.warnings.map(({ text }) => `${named(id)}: ${text}`),
    ...(leftOut > 0
      ? [`${named(id)}: ${leftOut} members end early or cannot be used, and are left out.`]
      : []),
  ]);
  said.push(...mownOnlyWords(request));
  const elsewhere = Object.entries(request.sites).filter(
    ([, { series }]) => series.site.timeZone !== timeZone,
  );
  if (elsewhere.length === 0) return said;
  const clocks = listWords(elsewhere.map(([id, { series }]) => `${named(id)} (${series.site.timeZone})`));
  const keeps = elsewhere.length === 1 ? "keeps another clock" : "keep other clocks";
  return [
    ...said,
    `${clocks} ${keeps}: working hours and all times told here are those of ${timeZone}, the zone of the first field.`,
  ];
}

/** Some fields by name, whether it is one alone, and the chance that their windows were asked for. */
function inReplay(request: CrewPlanRequest, fieldIds: readonly string[]) {
  const names = request.fields.filter(({ id }) => fieldIds.includes(id)).map(fieldName);
  const share = inTen(request.readyShare ?? CREW_DEFAULTS.readyShare.value);
  return { fields: listWords(names), isOne: names.length === 1, share };
}

/** Of a plan some windows of which are not those first read. */
export const OF_WINDOWS =
  "Value, bound and gap are of these windows: another plan, under which others would be read, may be better.";

/** That windows were read again, because the replay spoke against them. */
export function rereadWords(request: CrewPlanRequest, fieldIds: readonly string[]): string[] {
  if (fieldIds.length === 0) return [];
  const { fields, isOne, share } = inReplay(request, fieldIds);
  return [
    `In the replay of a first plan ${fields} ${isOne ? "was" : "were"} dry in less than ${share}, or drier than ${isOne ? "its" : "their"} band in most: those windows were read again from every member, and the plan was made once more.`,
  ];
}

/** That windows were read by the replay itself, because others failed the fields. */
export function toldWords(request: CrewPlanRequest, fieldIds: readonly string[]): string[] {
  if (fieldIds.length === 0) return [];
  const { fields, isOne, share } = inReplay(request, fieldIds);
  return [
    `With tedding and raking at usual hours no plan was found in which ${fields} ${isOne ? "is" : "are"} dry in ${share}, and within ${isOne ? "its" : "their"} band in half: ${isOne ? "its" : "their"} windows are those that the replay itself finds, each mowing with its own hours of tedding and raking.`,
  ];
}

/** Of fields that are left, and have windows at usual hours alone: what the bound cannot tell of them. */
export function usualWords(request: CrewPlanRequest, fieldIds: readonly string[]): string[] {
  if (fieldIds.length === 0) return [];
  const { fields } = inReplay(request, fieldIds);
  return [
    `Bound and gap reckon ${fields} by windows at usual hours of tedding and raking: no others were found in the time there was, and a longer limit may find some.`,
  ];
}

/** That windows were read by the replay itself, of served fields too, because a better plan was found in them. */
export function widenedWords(request: CrewPlanRequest, fieldIds: readonly string[]): string[] {
  if (fieldIds.length === 0) return [];
  const { fields, isOne } = inReplay(request, fieldIds);
  return [
    `The windows of ${fields} are those that the replay itself finds, each mowing with its own hours of tedding and raking: the plan in ${isOne ? "it" : "them"} brings more than any that was found in windows at usual hours.`,
  ];
}

/** Of fields whose promised hours lie in no window as it is read now, and stay all the same. */
export function promisedWords(request: CrewPlanRequest, fieldIds: readonly string[]): string[] {
  if (fieldIds.length === 0) return [];
  const { fields, share } = inReplay(request, fieldIds);
  return [
    `${fields}: the promised hours lie outside the windows as they are read now, and may stay, as the replay still finds the crop dry in ${share} at them.`,
  ];
}

/** That a plan was taken although its replay speaks against some windows: of those that were made it is the best. */
export function doubtedWords(request: CrewPlanRequest, fieldIds: readonly string[]): string[] {
  if (fieldIds.length === 0) return [];
  const { fields, isOne, share } = inReplay(request, fieldIds);
  return [
    `In the replay of this plan ${fields} ${isOne ? "is" : "are"} dry in less than the ${share} that ${isOne ? "its window was" : "their windows were"} asked for, or drier than ${isOne ? "its" : "their"} band in most: no better plan was found.`,
  ];
}

/** Of a field that is done as far as its hours hang on the mowing, which lies before the weather. */
export function earlyWarning(field: CrewFieldRequest): string {
  return `${fieldName(field)} was mown before the weather begins: what it lost is not reckoned, and all of it counts as kept.`;
}
