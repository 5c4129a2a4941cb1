import type { CutDoc } from "../../model/book/index.ts";
import type { Choice } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";
import { cutOfPage, fieldOfPage, samePlace, siteOfPage } from "./of-page.ts";
import type { BookOnPage } from "./use-book.ts";

/** What the page shows, kept: its place, field and cut, each made only where the book has none like it. */

type Keeper = Pick<BookOnPage, "entries" | "save">;

/** The place of the weather shown. */
export async function keepPlace({ entries, save }: Keeper, picture: Picture): Promise<string> {
  const site = siteOfPage(picture.source);
  const known = entries.sites.find(({ doc }) => samePlace(doc, site));
  return known?.id ?? save("sites", null, site);
}

const sameName = (a: string, b: string) => a.trim().toLowerCase() === b.trim().toLowerCase();

/** The field of the page, by its name: one of that name is brought up to what the page says. */
export async function keepField(book: Keeper, picture: Picture): Promise<string> {
  const known = book.entries.fields.find(({ doc }) => sameName(doc.name, picture.inputs.fieldName));
  const siteId = known?.doc.siteId ?? (await keepPlace(book, picture));
  const doc = fieldOfPage(picture, siteId);
  if (known === undefined) return book.save("fields", null, doc);
  await book.save("fields", known, { ...known.doc, ...doc });
  return known.id;
}

/** The chosen cut, of the page's field. */
export async function keepCut(book: Keeper, picture: Picture, choice: Choice): Promise<CutDoc> {
  const known = book.entries.fields.find(({ doc }) => sameName(doc.name, picture.inputs.fieldName));
  const fieldId = known?.id ?? (await keepField(book, picture));
  const cut = cutOfPage(picture, choice, fieldId);
  await book.save("cuts", null, cut);
  return cut;
}
