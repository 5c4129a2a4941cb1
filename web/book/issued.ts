import type { CutDoc, Entry, FieldDoc, ForecastDoc, UploadDoc } from "../../model/book/index.ts";
import { HOUR_MS } from "../../model/weather/clock.ts";
import type { WeatherSeries } from "../../model/weather/index.ts";
import type { Choice } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";
import { toldChances } from "./told-chances.ts";

/** What the page told, as the book keeps it: scored when the readings are there. Pure. */

/** The kept cut that a row is: of that field and crop, not brought in, at the same hour. */
export function cutOfChoice(
  cuts: readonly Entry<"cuts">[],
  fieldId: string,
  { request }: Pick<Picture, "request">,
  { option }: Choice,
): Entry<"cuts"> | undefined {
  const atMs = Date.parse(option.cutUtc ?? "");
  const momentOf = ({ cutUtc, plannedUtc }: CutDoc) => Date.parse(cutUtc ?? plannedUtc ?? "");
  return cuts.find(
    ({ doc }) =>
      doc.fieldId === fieldId &&
      doc.crop === request.swath.crop &&
      !doc.closedUtc &&
      Math.abs(momentOf(doc) - atMs) <= HOUR_MS,
  );
}

type Known<T> = { readonly [K in keyof T]?: T[K] | null | undefined };

/** What of a cut's swath the book can hold. */
type Swath = Pick<
  Picture["request"]["swath"],
  | "dryMatterTHa"
  | "initialMoistureWb"
  | "conditioning"
  | "coveredFraction"
  | "stubbleCm"
  | "soil"
  | "dryingAgent"
>;

/**
 * Whether a forecast was told of the cut as it is made: by its route, and in the swath that the book knows of it, or of its
 * field where the cut says nothing. With a lever tried it is of no cut.
 */
export function isAsMade(
  cut: CutDoc,
  field: Pick<FieldDoc, "dryMatterTHa" | "initialMoistureWb" | "habit">,
  { request }: Pick<Picture, "request">,
  route: Choice["route"],
): boolean {
  if (cut.route && route && cut.route !== route.route) return false;
  const [own, usual]: Known<Swath>[] = [cut, field].map(({ dryMatterTHa, initialMoistureWb, habit }) => ({
    dryMatterTHa,
    initialMoistureWb,
    ...habit,
  }));
  const { swath } = request;
  const keys = new Set([...Object.keys(own ?? {}), ...Object.keys(usual ?? {})] as (keyof Swath)[]);
  return [...keys].every((key) => {
    const known = own?.[key] ?? usual?.[key] ?? null;
    const told = swath[key] ?? false;
    if (known === null) return true;
    return typeof known === "number" && typeof told === "number"
      ? Math.abs(known - told) <= SAME * Math.abs(known)
      : known === told;
  });
}

/** Numbers that went through a form differ by their rounding, as a share. */
const SAME = 1e-3;

/** When a forecast of the page was issued, or had; never before the readings that it knows. Now for a file alone. */
export function issuedUtcOf({ source, request }: Pick<Picture, "source" | "request">, nowMs: number): string {
  const { issuedUtc, fetchedUtc } = source.series;
  const told = Date.parse(issuedUtc ?? fetchedUtc ?? "");
  const read = (request.readCuts ?? []).flatMap(({ readings }) =>
    readings.map(({ atUtc }) => Date.parse(atUtc) + 1000),
  );
  const ms = Math.max(Number.isNaN(told) ? nowMs : Math.min(told, nowMs), ...read);
  return new Date(ms).toISOString();
}

/** The cut that a reading of a field is of: the last that was due by then and is not brought in; null where none was. */
export function cutOfReading(cuts: readonly Entry<"cuts">[], fieldId: string, atUtc: string): string | null {
  const momentOf = ({ cutUtc, plannedUtc }: CutDoc) => Date.parse(cutUtc ?? plannedUtc ?? "");
  const due = cuts.filter(
    ({ doc }) => doc.fieldId === fieldId && !doc.closedUtc && momentOf(doc) <= Date.parse(atUtc),
  );
  return due.sort((a, b) => momentOf(b.doc) - momentOf(a.doc))[0]?.id ?? null;
}

export interface IssuedOf {
  readonly fieldId: string;
  /** Of a kept cut: only then the course is kept too, since readings of another cut are none of its. */
  readonly cutId: string | null;
  readonly issuedUtc: string;
}

/** The question without the members: they are twenty times the rest, and no copy of a book would hold a season of them. */
function withoutMembers({ weather, ...question }: Picture["request"]): Picture["request"] {
  const { members: _members, ...series } = weather;
  return { ...question, weather: series };
}

/** What was told, and the question that it was told of. The chances told stay in it; of an ensemble only the shared hours. */
export function issuedDoc(
  picture: Picture,
  choice: Choice,
  { fieldId, cutId, issuedUtc }: IssuedOf,
): ForecastDoc {
  const { request, source, course } = picture;
  const route = choice.route?.route;
  const told = course?.optionId === choice.option.id ? course.course : null;
  const q = told?.odds?.moistureWb;
  return {
    fieldId,
    issuedUtc,
    modelVersion: course?.course.modelVersion ?? "not told",
    verb: "windows",
    crop: request.swath.crop,
    request: withoutMembers(request) as unknown as ForecastDoc["request"],
    ...(route === undefined ? {} : { route }),
    ...(source.series.provider ? { provider: source.series.provider } : {}),
    ...(cutId === null ? {} : { cutId }),
    ...(cutId === null ? {} : { chances: toldChances(picture, choice, issuedUtc) }),
    ...(cutId === null || told === null
      ? {}
      : {
          course: {
            startUtc: told.hours.startUtc,
            moistureWb: told.hours.moistureWb,
            ...(q ? { quantiles: { p10: q.p10, p25: q.p25, p50: q.p50, p75: q.p75, p90: q.p90 } } : {}),
          },
        }),
  };
}

export function uploadDoc(name: string, siteId: string, series: WeatherSeries): UploadDoc {
  const { startUtc } = series.hours;
  const endMs = Date.parse(startUtc.at(-1) ?? "") + HOUR_MS;
  const fromUtc = startUtc[0] ?? "";
  return { name, siteId, fromUtc, toUtc: new Date(endMs).toISOString(), series };
}

/** FNV-1a of 32 bits. */
function markOf(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i += 1) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193) >>> 0;
  return hash.toString(36);
}

const knownHours = new WeakMap<WeatherSeries, string>();

/** The same for the same weather, and another for any other: all columns, and all members. */
export function hoursMark(series: WeatherSeries): string {
  const known = knownHours.get(series);
  if (known !== undefined) return known;
  const mark = markOf(JSON.stringify([series.hours, series.members ?? null]));
  knownHours.set(series, mark);
  return mark;
}

/** The same as long as the levers, readings and cuts that a forecast was asked with are: all but weather and clock. */
export function leversMark({ weather: _weather, nowUtc: _now, ...levers }: Picture["request"]): string {
  return markOf(JSON.stringify(levers));
}
