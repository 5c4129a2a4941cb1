import type { CutDoc, CutOperationDoc, FieldDoc, SiteDoc } from "../../model/book/index.ts";
import type { Entry } from "../../model/book/kinds.ts";
import { SWATH_LIMITS } from "../../model/drying/index.ts";
import { HARVEST_LIMITS } from "../../model/harvest/limits.ts";
import { within } from "../../model/limits.ts";
import { linkOf } from "../link/link-of.ts";
import { readLink } from "../link/read-link.ts";
import type { PlaceField } from "../place/place-texts.ts";
import { spotText } from "../place/spot.ts";
import type { Choice } from "../state/choice.ts";
import { FIELD_LIMITS } from "../state/field-limits.ts";
import type { Inputs, TextField } from "../state/inputs.ts";
import type { Picture } from "../state/state.ts";
import { typedValue } from "../state/typed.ts";
import { withCrop } from "../state/with-crop.ts";
import type { ForecastPlace } from "../weather/forecast.ts";
import type { WeatherSource } from "../weather/source.ts";

/** The page's present state as entries of the book, and a field of the book into the page's levers. */

/** The place of the weather shown. */
export function siteOfPage({ series }: WeatherSource): SiteDoc {
  const { latitude, longitude, elevationM, timeZone } = series.site;
  return { name: spotText(series.site), latitude, longitude, elevationM, timeZone };
}

/** About 100 m: the same farm. */
const SAME_DEGREES = 0.001;

export function samePlace(
  a: Pick<SiteDoc, "latitude" | "longitude">,
  b: Pick<SiteDoc, "latitude" | "longitude">,
): boolean {
  return (
    Math.abs(a.latitude - b.latitude) < SAME_DEGREES && Math.abs(a.longitude - b.longitude) < SAME_DEGREES
  );
}

const known = <T>(key: string, value: T | null | undefined): Record<string, T> =>
  value === null || value === undefined ? {} : { [key]: value };

/** The field on the page: what its picture was worked out from, and its levers as the address has them. */
export function fieldOfPage({ inputs, request, source }: Picture, siteId: string): FieldDoc {
  const {
    crop,
    dryMatterTHa,
    initialMoistureWb,
    conditioning,
    coveredFraction,
    stubbleCm,
    soil,
    dryingAgent,
  } = request.swath;
  const nowhere = { latitude: "", longitude: "", elevationM: "", windHeightM: "", timeZone: "" };
  const areaHa = typedValue("areaHa", inputs.texts.areaHa);
  return {
    name: inputs.fieldName.trim() || "Field",
    siteId,
    areaHa: areaHa !== null && within(areaHa, HARVEST_LIMITS.areaHa) ? areaHa : (request.field?.areaHa ?? 1),
    crop,
    dryMatterTHa,
    initialMoistureWb,
    habit: {
      ...known("conditioning", conditioning),
      ...known("coveredFraction", coveredFraction),
      ...known("stubbleCm", stubbleCm),
      ...known("soil", soil),
      ...known("dryingAgent", dryingAgent),
    },
    link: linkOf({ inputs, source, selection: null, place: nowhere }, true).slice(1),
  };
}

const WORK_OF_ROUTE = {
  "dry-hay": "bale",
  "wrapped-bales": "bale",
  "wilted-chop": "chop",
  "direct-chop": "chop",
  "green-chop": "chop",
  grazing: null,
} as const;

/** The chosen cut, as planned: its hour, its passes, and the machine at the start of its first window. */
export function cutOfPage(
  { inputs, request, source }: Picture,
  { option, route }: Choice,
  fieldId: string,
): CutDoc {
  const { crop, dryMatterTHa, initialMoistureWb } = request.swath;
  const work = route ? WORK_OF_ROUTE[route.route] : null;
  const window = route?.windows[0];
  const passes: CutOperationDoc[] = (route?.operations ?? []).map(({ kind, atUtc, coveredFraction }) => ({
    kind,
    plannedUtc: atUtc,
    ...known("coveredFraction", coveredFraction),
  }));
  if (work !== null && window) passes.push({ kind: work, plannedUtc: window.startUtc });
  if (route?.route === "wrapped-bales" && window) passes.push({ kind: "wrap", plannedUtc: window.startUtc });
  const plannedUtc = option.cutUtc ?? window?.startUtc ?? source.series.hours.startUtc[0] ?? "";
  const pack = route ? inputs.routes[route.route].package : null;
  return {
    fieldId,
    crop,
    plannedUtc,
    dryMatterTHa,
    initialMoistureWb,
    ...known("route", route?.route),
    ...known("package", pack),
    operations: passes,
    ...(source.kind === "sample" ? { notes: "Planned on invented weather." } : {}),
  };
}

/** A number of the book as its field on the page has it, where the page's limits hold it. */
function texts(inputs: Inputs, found: Partial<Record<TextField, number | null | undefined>>): Inputs {
  const next = { ...inputs.texts };
  for (const [field, value] of Object.entries(found) as [TextField, number | null | undefined][]) {
    const limit = field in FIELD_LIMITS ? FIELD_LIMITS[field as keyof typeof FIELD_LIMITS] : null;
    if (value === null || value === undefined || (limit && !within(value, limit))) continue;
    next[field] = { text: String(Number(value.toFixed(4))), units: "metric" };
  }
  return { ...inputs, texts: next };
}

/** The page's levers with a field of the book in them: first as they were kept with it, then what it says itself. */
export function inputsOfField(doc: FieldDoc, before: Inputs): Inputs {
  const start = doc.link ? readLink(`?${doc.link}`).inputs : before;
  const { crop, habit, dryMatterTHa, initialMoistureWb, areaHa } = doc;
  const grown = withCrop(start, crop);
  const cut = typedValue("mowerCutM", grown.texts.mowerCutM);
  const covered = habit?.coveredFraction;
  const wide =
    cut !== null && covered && within(covered, SWATH_LIMITS.coveredFraction) ? covered * cut : null;
  const inputs = texts(
    { ...grown, fieldName: doc.name, yieldBy: dryMatterTHa ? "tonnes" : grown.yieldBy },
    {
      areaHa,
      yieldTHa: dryMatterTHa,
      moisturePct: initialMoistureWb ? initialMoistureWb * 100 : null,
      stubbleCm: habit?.stubbleCm,
      swathWidthM: wide,
    },
  );
  return {
    ...inputs,
    conditioning: habit?.conditioning ?? inputs.conditioning,
    soil: habit?.soil ?? inputs.soil,
    dryingAgent: habit?.dryingAgent ?? inputs.dryingAgent,
  };
}

/** Where a field of the book is: its own spot, else its place's. */
export function placeOfField(doc: FieldDoc, sites: readonly Entry<"sites">[]): ForecastPlace | null {
  const site = sites.find(({ id }) => id === doc.siteId)?.doc;
  if (!site) return null;
  const { elevationM, timeZone } = site;
  return {
    latitude: doc.latitude ?? site.latitude,
    longitude: doc.longitude ?? site.longitude,
    elevationM,
    timeZone,
    provider: null,
  };
}

/** The same as the page's fields of a place have it. */
export function placeTexts({
  latitude,
  longitude,
  elevationM,
  timeZone,
}: ForecastPlace): readonly [PlaceField, string][] {
  return [
    ["latitude", String(latitude)],
    ["longitude", String(longitude)],
    ["elevationM", String(Math.round(elevationM ?? 0))],
    ["timeZone", timeZone ?? ""],
  ];
}
