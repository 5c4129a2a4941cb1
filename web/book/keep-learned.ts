import type { Entry, LearnedRateDoc } from "../../model/book/index.ts";
import type { LearnedRateRequest } from "../../model/drying/index.ts";
import { keepLearned, type Learned, learnedKey, type Reading, readLearned } from "../reading/readings.ts";
import type { Inputs } from "../state/inputs.ts";
import { fetchJson } from "./book-data.ts";
import { findField } from "./find-field.ts";
import { whoNow } from "./holder.ts";
import { keepNotes, rateNotes, ratesOfBook } from "./learned-rates.ts";
import { newId } from "./new-id.ts";
import { theOutbox } from "./the-outbox.ts";

/** Rates that readings taught, to the book and back, so that another device of the farm starts from them too. */

const mayWrite = (): boolean => {
  const who = whoNow();
  return who.kind === "all" || (who.kind === "holder" && who.mayEdit);
};

/** Keeps what these readings taught of a kept field, once for each set of readings. */
export async function keepLearnedRate(
  { fieldName, crop }: Pick<Inputs, "fieldName" | "crop">,
  { rateLnMean, rateLnSd, atUtc }: LearnedRateRequest,
  readings: readonly Reading[],
): Promise<void> {
  if (!mayWrite()) return;
  const key = learnedKey(fieldName, crop);
  const mark = readings.map(({ optionId, request }) => `${optionId} ${request.atUtc}`).join(", ");
  const isSent = () => rateNotes().sent.some((one) => one.key === key && one.mark === mark);
  if (isSent()) return;
  const { field } = await findField(fieldName);
  if (field === undefined || isSent()) return;
  const doc: LearnedRateDoc = { fieldId: field.id, crop, atUtc, lnMean: rateLnMean, lnSd: rateLnSd };
  const id = newId();
  const { sent, seen } = rateNotes();
  // Noted first: it does not come back as another device's.
  keepNotes({ sent: [...sent, { key, mark, id, doc }], seen: [...seen, id] });
  await theOutbox().make("learned-rates", doc, id);
}

/** A reading was taken back, or what a field taught is to be forgotten: what this device sent of it leaves the book. */
export async function dropLearnedRates(key: string): Promise<void> {
  if (!mayWrite()) return;
  const { sent, seen } = rateNotes();
  keepNotes({ sent: sent.filter((one) => one.key !== key), seen });
  const outbox = theOutbox();
  await outbox.load();
  for (const { id, doc } of sent.filter((one) => one.key === key)) {
    const head = { createdUtc: doc.atUtc, changedUtc: doc.atUtc, deleted: false };
    await outbox.remove("learned-rates", { id, revision: 1, ...head, doc });
  }
}

/** Most rates that are asked for, the newest: what is older has faded. */
const MOST_RATES = 200;

/**
 * Takes what other devices' readings taught; of a field whose own readings count here nothing, since they would count twice.
 *
 * @param readings those that count on the board shown
 * @returns all rates that the device knows now, or null where nothing is new
 */
export async function learnedOfBook(readings: readonly Reading[]): Promise<Learned | null> {
  if (whoNow().kind === "nobody") return null;
  type List<K extends "fields" | "learned-rates"> = { readonly entries: readonly Entry<K>[] };
  const rates = await fetchJson<List<"learned-rates">>(
    `api/book/learned-rates?newestFirst=true&limit=${MOST_RATES}`,
  );
  if (!rates.ok || rates.value.entries.length === 0) return null;
  const fields = await fetchJson<List<"fields">>("api/book/fields?limit=500");
  if (!fields.ok) return null;
  const { sent, seen } = rateNotes();
  const own = new Set(readings.map(({ field }) => field));
  const known = { learned: readLearned(), own, seen: new Set(seen) };
  const { learned, ids } = ratesOfBook(rates.value.entries, fields.value.entries, known);
  if (ids.length > 0) keepNotes({ sent, seen: [...seen, ...ids] });
  let next: Learned | null = null;
  for (const [key, rate] of Object.entries(learned)) next = keepLearned(key, rate);
  return next;
}
