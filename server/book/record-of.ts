import { createHash } from "node:crypto";
import type { ForecastDoc } from "../../model/book/index.ts";
import type { Outcome } from "../../model/limits.ts";
import {
  CAME_NOTE,
  type KeptForecast,
  type RecordAnswer,
  recordAnswer,
  recordOfBook,
} from "../../model/odds/index.ts";
import type { BookReader } from "./book.ts";
import { every } from "./every.ts";

/** Of a forecast what the record reads; of its request, with all the weather, only a mark of the hours is held. */
type Scored = Pick<
  ForecastDoc,
  "fieldId" | "siteId" | "cutId" | "issuedUtc" | "route" | "course" | "chances"
> & { readonly weather?: string };

/** The same for the same hours of weather, and another for any other; nothing where none are kept. */
function weatherMark({ request }: ForecastDoc): { readonly weather?: string } {
  const hours = (request.weather as { readonly hours?: unknown } | undefined)?.hours;
  return hours === undefined
    ? {}
    : { weather: createHash("sha256").update(JSON.stringify(hours)).digest("base64") };
}

/** The scores of what the book's forecasts said against its readings, by the farm's days. */
export async function recordOf(book: BookReader): Promise<Outcome<RecordAnswer>> {
  const forecasts: Scored[] = [];
  for await (const { doc } of every(book, "forecasts", { whole: true, limit: 20 })) {
    const { fieldId, siteId, cutId, issuedUtc, route, course, chances } = doc;
    forecasts.push({ fieldId, siteId, cutId, issuedUtc, route, course, chances, ...weatherMark(doc) });
  }
  const readings = [];
  for await (const { doc } of every(book, "readings")) readings.push(doc);
  const sites = await book.all("sites");
  const zones = new Map(sites.map(({ id, doc }) => [id, doc.timeZone]));
  const siteOfField = new Map((await book.all("fields")).map(({ id, doc }) => [id, doc.siteId]));
  const cuts = (await book.all("cuts")).map(({ id, doc }) => ({ ...doc, id }));
  const fieldOfCut = new Map(cuts.map(({ id, fieldId }) => [id, fieldId]));
  const zoneOf = ({ siteId, fieldId, cutId }: KeptForecast) => {
    const field = fieldId ?? fieldOfCut.get(cutId ?? "");
    return zones.get(siteId ?? siteOfField.get(field ?? "") ?? "");
  };
  const zone = sites[0]?.doc.timeZone ?? "UTC";
  const { leftOut, notKnown, bare, again, gathered, ...request } = recordOfBook(zone, forecasts, readings, {
    zoneOf,
    cuts,
  });
  const outcome = recordAnswer(request);
  if (!outcome.ok) return outcome;
  const notes = [
    CAME_NOTE,
    "Hours ahead count from a forecast's issue, or from when it was had where its service does not tell.",
    ...(notKnown === 0 ? [] : [`Told chances of which it is not known whether they came: ${notKnown}.`]),
    ...(bare === 0
      ? []
      : [
          `Readings beside a course that was kept without odds, or whose hours cannot be read: ${bare}. Not scored.`,
        ]),
    ...(gathered === 0
      ? []
      : [
          `Readings of a stored lot, or taken after the cut was baled or chopped: ${gathered}. They are not of the swath, and not scored.`,
        ]),
    ...(again === 0
      ? []
      : [
          `Told again of the same cut under the same weather, as when a lever was tried: ${again}. The first that was told is scored, once.`,
        ]),
    ...(leftOut === 0
      ? []
      : [
          `Left out: ${leftOut}, issued too long before, of a cut that was mown on another day, or with quantiles out of order.`,
        ]),
  ];
  return { ok: true, value: { ...outcome.value, notes: [...outcome.value.notes, ...notes] } };
}
