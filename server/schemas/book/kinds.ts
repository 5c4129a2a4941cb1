import type { z } from "@hono/zod-openapi";
import type { BookDocs, BookKind } from "../../../model/book/index.ts";
import { fieldDoc, herdDoc, machineDoc, personDoc, pricesDoc, siteDoc } from "./farm.ts";
import { crewPlanDoc, cutDoc, forecastDoc, learnedRateDoc, lotDoc, readingDoc, uploadDoc } from "./work.ts";

/** The document of each kind. */
export const BOOK_SCHEMAS: { readonly [K in BookKind]: z.ZodType<BookDocs[K]> } = {
  sites: siteDoc,
  fields: fieldDoc,
  machines: machineDoc,
  people: personDoc,
  prices: pricesDoc,
  herds: herdDoc,
  uploads: uploadDoc,
  cuts: cutDoc,
  lots: lotDoc,
  readings: readingDoc,
  forecasts: forecastDoc,
  "learned-rates": learnedRateDoc,
  "crew-plans": crewPlanDoc,
};
