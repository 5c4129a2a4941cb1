import { startOfLocalDay } from "../../weather/clock.ts";
import type { BookKind, Entry } from "../kinds.ts";
import { firstDayAfter } from "../label-interval.ts";
import { type DueItem, type DueQuestion, type Ground, isTold, itemOf } from "./item.ts";
import { dueOfCut } from "./of-cuts.ts";
import { dueOfLot } from "./of-lots.ts";

const BEFORE_WORDS = { cutting: "cut", grazing: "graze", feeding: "feed" } as const;

/** Said where a clock had to be taken for lack of the farm's own. */
const NO_CLOCK = "Its place is not known: days and hours are those of UTC.";

/** The first day after a label's interval, by what the user entered of it. */
function dueOfSprays(field: Entry<"fields">, ground: Ground): DueItem[] {
  return (field.doc.sprays ?? []).map((spray, i) => {
    const { product, intervalDays, before } = spray;
    const day = firstDayAfter(spray, ground.timeZone);
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
  // Of what names no field: the one clock of all places, where there is only one.
  const clocks = new Set(sites.filter(({ deleted }) => !deleted).map(({ doc }) => doc.timeZone));
  const onlyZone = clocks.size === 1 ? [...clocks][0] : undefined;
  const zoneOf = (fieldId: string | null) =>
    zones.get(fieldOf.get(fieldId ?? "")?.doc.siteId ?? "") ?? onlyZone;
  const ground = (
    entry: Entry<BookKind>,
    ids: Partial<Pick<Ground, "fieldId" | "cutId" | "lotId">>,
  ): Ground => {
    const { fieldId = null, cutId = null, lotId = null } = ids;
    const sprays = fieldOf.get(fieldId ?? "")?.doc.sprays ?? [];
    const timeZone = zoneOf(fieldId) ?? "UTC";
    return { nowUtcMs, timeZone, entry, fieldId, cutId, lotId, sprays };
  };
  const madeOf = (cutId: string) => lots.flatMap(({ doc }) => (doc.cutId === cutId ? [doc] : []));
  const items = [
    ...fields.flatMap((field) =>
      field.deleted ? [] : dueOfSprays(field, ground(field, { fieldId: field.id })),
    ),
    ...cuts.flatMap((cut) => {
      const { fieldId } = cut.doc;
      const name = fieldOf.get(fieldId)?.doc.name ?? "A field that is gone";
      return dueOfCut(cut, name, ground(cut, { fieldId, cutId: cut.id }), madeOf(cut.id));
    }),
    ...lots.flatMap((lot) => {
      const cutId = lot.doc.cutId ?? null;
      const fieldId = lot.doc.fieldId ?? cutOf.get(cutId ?? "")?.doc.fieldId ?? null;
      return dueOfLot(lot, ground(lot, { fieldId, cutId, lotId: lot.id }));
    }),
  ];
  return items
    .filter((item) => isTold(item, nowUtcMs, days))
    .map((item) =>
      zoneOf(item.fieldId) === undefined ? { ...item, text: `${item.text} ${NO_CLOCK}` } : item,
    )
    .sort((a, b) => Date.parse(a.atUtc) - Date.parse(b.atUtc) || (a.id < b.id ? -1 : 1));
}
