import type { CropKey } from "../../drying/keys.ts";
import { PRUSSIC_WAIT_WEEKS } from "../../feed/ensiling.ts";
import { DAY_MS, HOUR_MS } from "../../weather/clock.ts";
import type { HourlyWeather } from "../../weather/hourly.ts";
import type { RouteKey } from "../keys.ts";
import { PRUSSIC_CROPS } from "./prussic-crops.ts";
import {
  FROST_WAIT_DAYS,
  LEAST_HEIGHT_CM,
  NITRATE_ACCUMULATORS,
  NITRATE_CLOCK,
  REGROWTH_DAYS,
} from "./records.ts";
import {
  dullSpells,
  frosts,
  growthRains,
  restartRains,
  type WeatherEvent,
  wetSoilSpells,
} from "./weather-events.ts";

export const HAZARD_CODES = [
  "nitrate-after-rain",
  "nitrate-after-rain-late",
  "nitrate-after-frost",
  "nitrate-dull",
  "prussic-after-frost",
  "prussic-regrowth",
  "prussic-short",
  "soil-too-wet",
] as const;
export type HazardCode = (typeof HAZARD_CODES)[number];

/** A span that shades the calendar. `wait`: do not take the crop by this route; `caution`: test first. Never a clearance. */
export interface HazardSpan {
  readonly code: HazardCode;
  readonly level: "wait" | "caution";
  readonly startUtcMs: number;
  readonly endUtcMs: number;
  /** The rain or frost that it counts from. */
  readonly sinceUtcMs: number;
  readonly text: string;
  readonly source: string;
}

export interface HazardQuestion {
  readonly crop: CropKey;
  readonly route: RouteKey;
  /** Whether the crop was short of water when the weather begins; null = nobody has said, which counts as yes. */
  readonly drought: boolean | null;
  /** Height of a sorghum type's new growth, cm; null = not growing anew. */
  readonly regrowthCm: number | null;
  readonly maxRainMm24h: number;
}

/** Overlapping spans of one code as one, which counts from the last event; in order. */
function merged(spans: readonly HazardSpan[]): HazardSpan[] {
  const out: HazardSpan[] = [];
  for (const span of spans.toSorted((a, b) => a.startUtcMs - b.startUtcMs)) {
    const open = out.at(-1);
    if (open && span.startUtcMs <= open.endUtcMs) {
      out[out.length - 1] = {
        ...open,
        endUtcMs: Math.max(open.endUtcMs, span.endUtcMs),
        sinceUtcMs: span.sinceUtcMs,
      };
    } else out.push(span);
  }
  return out;
}

/** The first spans without the time of the others. */
function without(spans: readonly HazardSpan[], others: readonly HazardSpan[]): HazardSpan[] {
  return others.reduce<HazardSpan[]>(
    (left, other) =>
      left
        .flatMap((span) => [
          { ...span, endUtcMs: Math.min(span.endUtcMs, other.startUtcMs) },
          { ...span, startUtcMs: Math.max(span.startUtcMs, other.endUtcMs) },
        ])
        .filter((span) => span.endUtcMs > span.startUtcMs),
    [...spans],
  );
}

type Make = Pick<HazardSpan, "code" | "level" | "text" | "source">;

/** From each event's start to so many days past its end, joined. */
function after(events: readonly WeatherEvent[], days: number, make: Make): HazardSpan[] {
  return merged(
    events.map(({ startUtcMs, endUtcMs }) => ({
      ...make,
      startUtcMs,
      endUtcMs: endUtcMs + days * DAY_MS,
      sinceUtcMs: endUtcMs,
    })),
  );
}

function nitrateSpans(weather: HourlyWeather, drought: boolean | null): HazardSpan[] {
  const { firstDays, middleDays, longDays, injuryDays, injuryPeakDays, dullHours } = NITRATE_CLOCK;
  const restarts = restartRains(growthRains(weather), drought);
  const doubt = drought === null ? ", if the crop was short of water before" : "";
  const first = after(restarts, firstDays.value, {
    code: "nitrate-after-rain",
    level: "wait",
    text: `Rain has restarted growth${doubt}. Wait ${firstDays.value} days at least, then test for nitrate.`,
    source: firstDays.source,
  });
  const late = after(restarts, longDays.value, {
    code: "nitrate-after-rain-late",
    level: "caution",
    text: `Growth restarted less than ${longDays.value} days ago: sources wait ${middleDays.value} to ${longDays.value} days. Test for nitrate again.`,
    source: longDays.source,
  });
  const injured = after(frosts(weather), injuryDays.value, {
    code: "nitrate-after-frost",
    level: "caution",
    text: `After frost nitrate is highest about day ${injuryPeakDays.value} and takes up to ${injuryDays.value} days to fall, if the plant grows again. Test it.`,
    source: injuryDays.source,
  });
  const dull = after(dullSpells(weather), 0, {
    code: "nitrate-dull",
    level: "caution",
    text: "Two dull days raise nitrate in stems. Test it, or wait for sun.",
    source: `${dullHours.source}; a minor and unreliable effect`,
  });
  return [...first, ...without(late, first), ...injured, ...dull];
}

const FRESH: readonly RouteKey[] = ["grazing", "green-chop"];
const FERMENTS: readonly RouteKey[] = ["wrapped-bales", "wilted-chop", "direct-chop"];

const CM_PER_IN = 2.54;

function heightWords(cm: number): string {
  return `${Math.round(cm)} cm (${Math.round(cm / CM_PER_IN)} in)`;
}

function prussicSpans(weather: HourlyWeather, question: HazardQuestion): HazardSpan[] {
  const { crop, route, drought, regrowthCm } = question;
  const wait = FROST_WAIT_DAYS[route];
  const ferment = FERMENTS.includes(route)
    ? ` Then let it ferment for ${PRUSSIC_WAIT_WEEKS.value} weeks and test it.`
    : " Test it; each new frost starts the count again.";
  const cold = frosts(weather);
  const frozen = after(cold, wait.value, {
    code: "prussic-after-frost",
    level: "wait",
    text: `Frost frees prussic acid in sorghum types: ${FRESH.includes(route) ? "take stock off and " : ""}wait ${wait.value} days.${ferment}`,
    source: wait.source,
  });
  const fresh = FRESH.includes(route);
  const regrown = after(restartRains(growthRains(weather), drought), REGROWTH_DAYS.value, {
    code: "prussic-regrowth",
    level: fresh ? "wait" : "caution",
    text: `New growth after a drought holds the most prussic acid: ${fresh ? `wait ${REGROWTH_DAYS.value} days and test it` : "test it"}.`,
    source: REGROWTH_DAYS.source,
  });
  const least = LEAST_HEIGHT_CM[crop];
  const tooShort = least && regrowthCm !== null && regrowthCm < least.value;
  const short: HazardSpan[] = tooShort
    ? [
        {
          code: "prussic-short",
          level: fresh ? "wait" : "caution",
          startUtcMs: weather.startUtcMs,
          endUtcMs: weather.startUtcMs + weather.count * HOUR_MS,
          sinceUtcMs: weather.startUtcMs,
          text: `New growth at ${heightWords(regrowthCm)} is under ${heightWords(least.value)}, the height from which sources graze it. Measure it again.`,
          source: least.source,
        },
      ]
    : [];
  return [...frozen, ...regrown, ...short];
}

/**
 * What the weather says against taking this crop by this route, hour by hour: spans in order of their start, cut at the
 * weather's end. A screen by published waits: only a laboratory result on the crop as it stands tells more.
 */
export function hazardCalendar(weather: HourlyWeather, question: HazardQuestion): HazardSpan[] {
  const endUtcMs = weather.startUtcMs + weather.count * HOUR_MS;
  const soil = after(wetSoilSpells(weather, question.maxRainMm24h), 0, {
    code: "soil-too-wet",
    level: "wait",
    text: "The soil does not carry machines: too much rain in the last 24 hours.",
    source: "no traffic after 5-15 mm in 24 h by soil, from memory",
  });
  const grazed = question.route === "grazing";
  const spans = [
    ...(NITRATE_ACCUMULATORS.includes(question.crop) ? nitrateSpans(weather, question.drought) : []),
    ...(PRUSSIC_CROPS.includes(question.crop) ? prussicSpans(weather, question) : []),
    ...(grazed
      ? soil.map((span) => ({
          ...span,
          level: "caution" as const,
          text: "The soil is soft: stock tread it to mud.",
        }))
      : soil),
  ];
  return spans
    .map((span) => ({ ...span, endUtcMs: Math.min(span.endUtcMs, endUtcMs) }))
    .filter((span) => span.endUtcMs > span.startUtcMs)
    .sort((a, b) => a.startUtcMs - b.startUtcMs || (a.code < b.code ? -1 : 1));
}

/** The spans that a moment lies in: what `why` tells of a cut or a window. */
export function hazardsAt(spans: readonly HazardSpan[], atUtcMs: number): HazardSpan[] {
  return spans.filter(({ startUtcMs, endUtcMs }) => startUtcMs <= atUtcMs && atUtcMs < endUtcMs);
}
