import type { Choice } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";
import { findField } from "./find-field.ts";
import { whoNow } from "./holder.ts";
import { cutOfChoice, hoursMark, isAsMade, issuedDoc, issuedUtcOf, leversMark, uploadDoc } from "./issued.ts";
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
 * Keeps the forecast that was told of a kept field, with all that it was worked out from; and the station's file that it
 * used. Of a kept cut as it is made it is kept once a weather, and scored; with other levers once for each, of no cut.
 * Invented weather is no forecast.
 */
export async function keepIssued(picture: Picture, choice: Choice, nowMs: number): Promise<void> {
  const { source, inputs, request } = picture;
  const who = whoNow();
  if (source.kind === "sample" || who.kind === "nobody" || (who.kind === "holder" && !who.mayEdit)) return;
  const outbox = theOutbox();
  const { field, entries, queue } = await findField(inputs.fieldName);
  if (field === undefined) return;
  const found = cutOfChoice(withWaiting("cuts", entries?.cuts ?? [], queue), field.id, picture, choice);
  const cut = found && isAsMade(found.doc, field.doc, picture, choice.route) ? found : undefined;
  const weather = hoursMark(source.series);
  const used = source.kind === "upload" ? source : source.observed;
  if (used && isNew(`upload ${field.doc.siteId} ${hoursMark(used.series)}`)) {
    await outbox.make("uploads", uploadDoc(used.name, field.doc.siteId, used.series));
  }
  const mark = cut ? `cut ${cut.id} ${weather}` : `forecast ${field.id} ${weather} ${leversMark(request)}`;
  if (!isNew(mark)) return;
  const of = { fieldId: field.id, cutId: cut?.id ?? null, issuedUtc: issuedUtcOf(picture, nowMs) };
  await outbox.make("forecasts", issuedDoc(picture, choice, of));
}
