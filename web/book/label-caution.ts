import { otherCropText } from "../../model/book/check/other-crop.ts";
import { dayText } from "../../model/book/due/item.ts";
import { gasUntil } from "../../model/book/due/keep-out.ts";
import { intervalsBefore } from "../../model/book/due/of-cuts.ts";
import type { CutDoc, LotDoc } from "../../model/book/index.ts";
import { intervalText, runningIntervals } from "../../model/book/label-interval.ts";
import type { Manner } from "../format/manner.ts";
import { timeOfField } from "../reading/read-reading.ts";
import type { ShownKind } from "./book-data.ts";
import { daysInWords } from "./due-strip.ts";
import { textOf, type Values } from "./spec.ts";
import { fieldIdOf, zoneOf } from "./told-entry.ts";
import type { ShownBook } from "./use-book.ts";

/** What is told where a cut is planned and a lot is opened: a label's interval that still runs, another crop. */

type Asked = Pick<CutDoc, "fieldId" | "route" | "plannedUtc" | "cutUtc">;

/** What the labels say of a planned cut; "" where nothing runs. */
export function cutCaution({ fieldId, route, plannedUtc, cutUtc }: Asked, book: ShownBook, manner: Manner) {
  const sprays = book.fields.find(({ id }) => id === fieldId)?.doc.sprays;
  const atMs = Date.parse(cutUtc ?? plannedUtc ?? "");
  if (Number.isNaN(atMs)) return "";
  const timeZone = zoneOf({ fieldId }, book, manner.zone);
  const text = intervalText(runningIntervals(sprays, intervalsBefore(route), atMs, timeZone));
  return daysInWords({ text, timeZone }, manner);
}

/** Whether the crop of a form is that of its field. */
function cropCaution(kind: ShownKind, values: Values, book: ShownBook): string {
  if (kind !== "cuts" && kind !== "lots") return "";
  const names = { fieldId: textOf(values, "fieldId"), cutId: textOf(values, "cutId") };
  const field = book.fields.find(({ id }) => id === fieldIdOf(names, book));
  const crop = (textOf(values, "crop") || null) as CutDoc["crop"] | null;
  return otherCropText(crop, field?.doc.crop ?? null);
}

/** What a form ought to say as it is filled in: a label's interval, another crop than the field's. */
export function formCaution(kind: ShownKind, values: Values, book: ShownBook, manner: Manner): string {
  const parts = [intervalCaution(kind, values, book, manner), cropCaution(kind, values, book)];
  return parts.filter((part) => part !== "").join(" ");
}

function intervalCaution(kind: ShownKind, values: Values, book: ShownBook, manner: Manner): string {
  const names = { fieldId: textOf(values, "fieldId"), cutId: textOf(values, "cutId") };
  const timeZone = zoneOf(names, book, manner.zone);
  const msOf = (path: string) => timeOfField(textOf(values, path), timeZone);
  const isoAt = (path: string) => {
    const ms = msOf(path);
    return ms === null ? null : new Date(ms).toISOString();
  };
  if (kind === "cuts") {
    const route = (textOf(values, "route") || null) as LotDoc["route"] | null;
    const times = { plannedUtc: isoAt("plannedUtc"), cutUtc: isoAt("cutUtc") };
    return cutCaution({ fieldId: names.fieldId, route, ...times }, book, manner);
  }
  const openMs = kind === "lots" ? (msOf("openedUtc") ?? msOf("openUtc")) : null;
  if (openMs === null) return "";
  const sprays = book.fields.find(({ id }) => id === fieldIdOf(names, book))?.doc.sprays;
  const storedMs = msOf("storedUtc");
  const running = runningIntervals(sprays, ["feeding"], openMs, timeZone, storedMs ?? openMs);
  const [route, crop] = [textOf(values, "route"), textOf(values, "crop")];
  const gas =
    storedMs === null || !route || !crop
      ? null
      : gasUntil(route as LotDoc["route"], crop as LotDoc["crop"], storedMs);
  const keepOut =
    gas === null || openMs >= gas.untilMs
      ? ""
      : `Silo gas kills: keep out until ${dayText(gas.untilMs, timeZone)}.`;
  const text = `${keepOut} ${intervalText(running)}`.trim();
  return daysInWords({ text, timeZone }, manner);
}
