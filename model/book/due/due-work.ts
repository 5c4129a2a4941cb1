import { addDays, localDayKey, startOfLocalDay } from "../../weather/clock.ts";
import type { BookKind, Entry } from "../kinds.ts";
import { type DueItem, type DueQuestion, type Ground, isTold, itemOf } from "./item.ts";
import { dueOfCut } from "./of-cuts.ts";
import { dueOfLot } from "./of-lots.ts";

const BEFORE_WORDS = { cutting: "cut", grazing: "graze", feeding: "feed" } as const;

/** The first day after a label's interval, by what the user entered of it. */
function dueOfSprays(field: Entry<"fields">, ground: Ground): DueItem[] {
  return (field.doc.sprays ?? []).map(({ product, appliedUtc, intervalDays, before }, i) => {
    const day = addDays(localDayKey(Date.parse(appliedUtc), ground.timeZone), intervalDays);
    return itemOf(ground, {
      work: "spray-over",
      part: String(i),
      name: field.doc.name,
      verb: `${product}, interval over`,
      text: `First day to ${BEFORE_WORDS[before]}, by the ${intervalDays} days entered. The label decides.`,
      atMs: startOfLocalDay(ground.timeZone, day),
      allDay: true,
      toDo: false,
    });
  });
}

/**
 * What the coming days ask for, from cuts, lots and sprays: work until it is done, dates until they are past. In the
 * order of time.
 */
export function dueWork({ nowUtcMs, days, sites, fields, cuts, lots }: DueQuestion): DueItem[] {
  const zones = new Map(sites.map(({ id, doc }) => [id, doc.timeZone]));
  const fieldOf = new Map(fields.map((field) => [field.id, field]));
  const cutOf = new Map(cuts.map((cut) => [cut.id, cut]));
  const usualZone = sites[0]?.doc.timeZone ?? "UTC";
  const zoneOf = (fieldId: string | null) =>
    zones.get(fieldOf.get(fieldId ?? "")?.doc.siteId ?? "") ?? usualZone;
  const ground = (
    entry: Entry<BookKind>,
    ids: Partial<Pick<Ground, "fieldId" | "cutId" | "lotId">>,
  ): Ground => {
    const { fieldId = null, cutId = null, lotId = null } = ids;
    return { nowUtcMs, timeZone: zoneOf(fieldId), entry, fieldId, cutId, lotId };
  };
  const withLot = new Set(lots.map(({ doc }) => doc.cutId));
  const items = [
    ...fields.flatMap((field) => dueOfSprays(field, ground(field, { fieldId: field.id }))),
    ...cuts.flatMap((cut) => {
      const field = fieldOf.get(cut.doc.fieldId);
      if (field === undefined) return [];
      const at = ground(cut, { fieldId: field.id, cutId: cut.id });
      return dueOfCut(cut, field.doc.name, at, withLot.has(cut.id));
    }),
    ...lots.flatMap((lot) => {
      const cutId = lot.doc.cutId ?? null;
      const fieldId = lot.doc.fieldId ?? cutOf.get(cutId ?? "")?.doc.fieldId ?? null;
      return dueOfLot(lot, ground(lot, { fieldId, cutId, lotId: lot.id }));
    }),
  ];
  return items
    .filter((item) => isTold(item, nowUtcMs, days))
    .sort((a, b) => Date.parse(a.atUtc) - Date.parse(b.atUtc) || (a.id < b.id ? -1 : 1));
}
