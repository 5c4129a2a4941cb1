import { CROP_CATALOGUE } from "../../model/drying/index.ts";
import type { CropKey } from "../../model/drying/keys.ts";
import {
  type HazardAnswer,
  ROUTE_CATALOGUE,
  type RouteKey,
  type WindowsAnswer,
} from "../../model/harvest/index.ts";
import { settleMoney } from "../../model/harvest/settle-money.ts";
import { beforeCutting as gateOf } from "../../model/harvest/value/before-cutting.ts";
import { routeCaution } from "../cautions/cautions.ts";
import { clockText, dayDateText, shortDateClockText, utcMs } from "../format/farm-time.ts";
import { type Manner, numberText, quantityText } from "../format/manner.ts";
import { type Quantity, toPage, unitName } from "../format/units.ts";
import { listText, ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import { RATE_FIELDS } from "../routes/money-defaults.ts";
import type { SideBySide } from "../routes/route-rows.ts";
import { boardFromUtc } from "../state/board-from.ts";
import type { TextField } from "../state/inputs.ts";
import type { Picture } from "../state/state.ts";
import { animalWords, type FeedBrief } from "./feed-brief.ts";

/** The lines of the printed brief. */

/** "Which way for Creek field: dry hay, wrapped bales or wilted chop? Alfalfa, 6.4 ha, ..., Tuesday 1 Jul to Friday 11 Jul." */
export function questionOf(picture: Picture, feed: FeedBrief, manner: Manner): string {
  const { inputs, request, answer } = picture;
  const { swath, field, standing, routes = [] } = request;
  const names = routes.map(({ route }) => ROUTE_LABELS[route]);
  const which = names.length > 1 ? `${names.slice(0, -1).join(", ")} or ${names.at(-1)}` : (names[0] ?? "");
  const from = boardFromUtc(picture);
  const herd =
    feed.kind === "told"
      ? `, for a ${animalWords(feed.request, manner)}`
      : standing?.dailyNeedKgDm == null
        ? ""
        : `, for a herd that needs ${quantityText(standing.dailyNeedKgDm, "mass", manner)} of dry matter a day`;
  const crop = CROP_CATALOGUE[inputs.crop].label;
  const much = `${quantityText(field.areaHa, "area", manner)}, ${quantityText(swath.dryMatterTHa, "dryMatterYield", manner)} of dry matter`;
  const days = `${dayDateText(from, manner)} to ${dayDateText(answer.usableUntilUtc, manner)}`;
  return `${inputs.fieldName.trim() || "The field"}: ${which}? ${crop}, ${much}${herd}; ${days}.`;
}

const SPANS_TOLD = 2;
const HAZARDS_TOLD = 6;

/** "Sun 28 Jun 16:00 to Tue 7 Jul 00:00", "Wed 1 Jul 06:00 to 18:00": by date, as spans run over more than a week. */
function hazardSpanText({ startUtc, endUtc }: HazardAnswer, manner: Manner): string {
  const sameDay = dayDateText(startUtc, manner) === dayDateText(endUtc, manner);
  const until = sameDay ? clockText(endUtc, manner) : shortDateClockText(endUtc, manner);
  return `${shortDateClockText(startUtc, manner)} to ${until}`;
}

/** "Wait (dry hay and wrapped bales), Wed 1 Jul 06:00 to 18:00 and 3 more: the soil does not carry machines." One line a text. */
export function hazardLines({ hazards }: WindowsAnswer, manner: Manner): string[] {
  const byText = new Map<string, HazardAnswer[]>();
  for (const one of hazards) byText.set(one.text, [...(byText.get(one.text) ?? []), one]);
  const lines = [...byText.values()]
    .toSorted((a, b) => (a[0]?.level === b[0]?.level ? 0 : a[0]?.level === "wait" ? -1 : 1))
    .flatMap((spans) => {
      const [first] = spans;
      if (first === undefined) return [];
      const routes = [...new Set(spans.map(({ route }) => ROUTE_LABELS[route]))];
      const starts = [...new Map(spans.map((one) => [one.startUtc, one])).values()].toSorted(
        (a, b) => utcMs(a.startUtc) - utcMs(b.startUtc),
      );
      const told = starts.slice(0, SPANS_TOLD).map((span) => hazardSpanText(span, manner));
      if (starts.length > told.length) told.push(`${starts.length - told.length} more`);
      const what = first.level === "wait" ? "Wait" : "Take care";
      return [`${what} (${listText(routes)}), ${listText(told)}: ${first.text}`];
    });
  const rest = lines.length - HAZARDS_TOLD;
  return rest > 0 ? [...lines.slice(0, HAZARDS_TOLD), `And ${rest} more on the board.`] : lines;
}

export interface GateLine {
  readonly ask: string;
  readonly ticked: boolean;
}

export function gateLines({ inputs }: Pick<Picture, "inputs">): GateLine[] {
  return gateOf(inputs.crop).map(({ key, ask }) => ({ ask, ticked: inputs.settled.includes(key) }));
}

/** Whether the crop is one that is sampled for prussic acid too, as its gate says. */
const asksPrussic = ({ inputs }: Pick<Picture, "inputs">) =>
  gateOf(inputs.crop).some(({ key }) => key === "prussic-acid");

/** Orders of every route that is compared, the first place first. */
function routeCautions(routes: readonly RouteKey[], crop: CropKey): string[] {
  const seen = new Set<string>();
  return routes.flatMap((route) => {
    const { title, orders } = routeCaution(route, crop);
    if (seen.has(title)) return [];
    seen.add(title);
    return [`${title}: ${orders.join(" ")}`];
  });
}

/** Orders of the routes, then what the feed check minds besides: what a compared route orders already is not said twice. */
export function cautionLines({ rows }: SideBySide, feed: FeedBrief, crop: CropKey): string[] {
  const routes = rows.map(({ route }) => route);
  if (feed.kind !== "told") return routeCautions(routes, crop);
  const ordered = new Set(routes.flatMap((route) => ROUTE_CATALOGUE[route].caution.split(/(?<=\.)\s+/)));
  return [...routeCautions(routes, crop), ...feed.answer.cautions.filter((line) => !ordered.has(line))];
}

/** Who settles what this brief cannot. */
export function deferrals(picture: Pick<Picture, "inputs">): (readonly [who: string, what: string])[] {
  const both = asksPrussic(picture) ? "nitrate and prussic acid" : "nitrate";
  return [
    [
      "Laboratory",
      `${both} of each lot on a representative sample, with ion, unit and basis printed; again on the made feed`,
    ],
    [
      "Veterinarian",
      "whether these animals may have it: pregnant, young, thin, sick or hungry stock, horses, sheep and goats first; any sign of illness at once",
    ],
    ["Nutritionist or adviser", "the whole ration, mixed and weighed"],
    ["Label", "days from the last spray to harvest, feeding and grazing, for this use of the crop"],
    ["Local codes", "silo effluent, film and its disposal, burning, loads and hours on the road"],
    ["Extension service", "limits and waits that hold in your region, and this year's warnings"],
  ];
}

/** How a price or rate is told: with its unit, and where it is nobody's own. */
function priced(value: number, quantity: Quantity | null, per: string, own: boolean, manner: Manner): string {
  const shown = quantity === null ? value : toPage(value, quantity, manner.units);
  const unit = quantity === null ? per : unitName(quantity, manner.units);
  return `${numberText(shown, shown < 20 ? 2 : 0, manner)} ${unit}${own ? "" : " (default)"}`;
}

/** Every price and rate that the money was counted by, own or default. */
export function priceLines({ inputs, request, source }: Picture, manner: Manner): string[] {
  const { prices, rates } = settleMoney(request);
  const currency = inputs.texts.currency.text.trim();
  const dry = (request.routes ?? []).find(({ route }) => route === "dry-hay");
  const pack = dry?.package ?? "round";
  const rateOf: Partial<Record<TextField, number>> = {
    mowCost: rates.mowPerHa,
    tedCost: rates.passPerHa.ted,
    rakeCost: rates.passPerHa.rake,
    baleCost: rates.balePerBale[pack],
    haulCost: rates.haulPerBale[pack],
    wrapCost: rates.wrapPerBale,
    filmCost: rates.filmPerBale,
    chopCost: rates.chopPerHa,
    fillCost: rates.fillPerHa,
    grazeCost: rates.grazePerHa,
    labourCost: rates.labourPerH,
  };
  const fed = (request.routes ?? []).map(
    ({ route }) =>
      `${sentenceCase(ROUTE_LABELS[route])} ${priced(prices[route], "perT", "", request.prices?.[route] !== undefined, manner)}`,
  );
  const paid = RATE_FIELDS.flatMap(({ field, label, quantity, per }) => {
    const value = rateOf[field];
    if (value === undefined) return [];
    return [`${label} ${priced(value, quantity, per, inputs.texts[field].text.trim() !== "", manner)}`];
  });
  return [
    `Prices of dry matter fed, ${currency === "" ? "in no currency" : currency}: ${fed.join("; ")}.`,
    `Rates: ${paid.join("; ")}.`,
    ...(source.kind === "sample" ? ["Field, weather and prices are an invented demonstration."] : []),
  ];
}

/** Where the losses come from: each step's own words once, under what they are of. */
function lossSources({ rows }: SideBySide): string[] {
  const of = new Map<string, RouteKey[]>();
  for (const { route, lossSteps } of rows)
    for (const { step, source } of lossSteps) {
      if (source === "") continue;
      const line = `${step.replaceAll("-", " ")}: ${source}`;
      of.set(line, [...(of.get(line) ?? []), route]);
    }
  return [...of].map(([line, routes]) =>
    routes.length === rows.length
      ? sentenceCase(line)
      : `${sentenceCase(listText(routes.map((route) => ROUTE_LABELS[route])))}, ${line}`,
  );
}

/** Of the losses step by step; then every other author once, by the alphabet. */
export function sourceLines(side: SideBySide, picture: Picture, more: readonly string[]): string[] {
  const { inputs, answer } = picture;
  const told = [
    ...side.rows.flatMap(({ route }) => routeCaution(route, inputs.crop).reasons.map(({ source }) => source)),
    ...gateOf(inputs.crop).map(({ source }) => source),
  ]
    .flatMap((line) => line.split("; "))
    .concat(
      answer.hazards.map(({ source }) => source),
      more,
    );
  // Some name the lack of a year, some leave it out: one and the same.
  const sameAs = (line: string) =>
    line
      .trim()
      .toLowerCase()
      .replace(/, no year$/, "");
  const once = new Map(told.map((line) => [sameAs(line), line.trim()]));
  const authors = [...once.values()]
    .filter((line) => line !== "")
    .toSorted((a, b) => a.localeCompare(b, "en"));
  return [...lossSources(side), ...authors];
}
