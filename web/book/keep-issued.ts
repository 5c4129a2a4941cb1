import type { Choice } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";
import { findField } from "./find-field.ts";
import { whoNow } from "./holder.ts";
import { cutOfChoice, hoursMark, issuedDoc, leversMark, uploadDoc } from "./issued.ts";
import { withWaiting } from "./queue.ts";
import { theOutbox } from "./the-outbox.ts";

const KEY = "swathclock-book-issued";
/** Marks of what is in the book already; a device that forgets them keeps a forecast once more, which scores the same. */
const MARKS = 60;
let inPage: readonly string[] = [];

function marks(): readonly string[] {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? "[]");
    return Array.isArray(kept) ? [...inPage, ...kept.map(String)] : inPage;
  } catch {
    return inPage;
  }
}

/** True the first time that it is asked of a mark. */
function isNew(mark: string): boolean {
  const before = marks();
  if (before.includes(mark)) return false;
  inPage = [mark, ...inPage].slice(0, MARKS);
  try {
    localStorage.setItem(KEY, JSON.stringify([mark, ...before].slice(0, MARKS)));
  } catch {
    // The page remembers it.
  }
  return true;
}

/**
 * Keeps the forecast that was told of a kept field, once for each weather, levers and kept cut, with all that it was
 * worked out from; and the station's file that it used. Invented weather is no forecast.
 */
export async function keepIssued(picture: Picture, choice: Choice, nowMs: number): Promise<void> {
  const { source, inputs } = picture;
  const who = whoNow();
  if (source.kind === "sample" || who.kind === "nobody" || (who.kind === "holder" && !who.mayEdit)) return;
  const outbox = theOutbox();
  const { field, entries, queue } = await findField(inputs.fieldName);
  if (field === undefined) return;
  const cut = cutOfChoice(withWaiting("cuts", entries?.cuts ?? [], queue), field.id, picture, choice);
  const weather = hoursMark(source.series);
  const mark = `${weather} ${leversMark(picture.request)}`;
  const used = source.kind === "upload" ? source : source.observed;
  if (used && isNew(`upload ${field.doc.siteId} ${hoursMark(used.series)}`)) {
    await outbox.make("uploads", uploadDoc(used.name, field.doc.siteId, used.series));
  }
  if (!isNew(`forecast ${field.id} ${cut?.id ?? ""} ${cut ? (choice.route?.route ?? "") : ""} ${mark}`))
    return;
  const issuedUtc = new Date(nowMs).toISOString();
  const withChances = cut !== undefined && isNew(`chances ${cut.id} ${weather}`);
  const of = { fieldId: field.id, cutId: cut?.id ?? null, issuedUtc, withChances };
  await outbox.make("forecasts", issuedDoc(picture, choice, of));
}
