import { CROP_CATALOGUE } from "../../model/drying/index.ts";
import {
  defaultPlan,
  HARVEST_DEFAULTS,
  ROUTE_CATALOGUE,
  type RouteAnswer,
  type RouteKey,
  type WindowsAnswer,
  type WindowsRequest,
} from "../../model/harvest/index.ts";
import { HOUR_MS, localParts } from "../../model/weather/clock.ts";
import { utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import type { Inputs } from "../state/inputs.ts";
import { readInputs } from "../state/read-inputs.ts";
import { WIDTH_PRESETS, withCover } from "./widths.ts";

/** Gains under this are not worth a change, h; assumed. */
const LEAST_GAIN_H = 1;
/** A swath this near the widest preset is not spread further. */
const WIDE_ENOUGH = 0.05;

/** One change of one lever, tried for the chosen cut and route alone. */
export interface Candidate {
  readonly change: "wider" | "condition" | "ted" | "no-rake";
  /** What an undo of it is called. */
  readonly what: string;
  /** "Spread to 90 % of the cut". */
  readonly sentence: string;
  /** The fields with the change made: what a click would set. */
  readonly inputs: Inputs;
  readonly request: WindowsRequest;
}

/** The cut that is looked at, start of its mowing, and how the crop is to be brought in. */
export interface Chosen {
  readonly cutUtc: string;
  readonly route: RouteKey;
}

/** A change worth making. */
export interface BestChange {
  readonly candidate: Candidate;
  /** Hours by which the route's first window comes sooner, below 0 where it is later but spared the rain; null where it had none. */
  readonly gainH: number | null;
  /** "Spread to 90 % of the cut: wrapped bales 9 h sooner." */
  readonly text: string;
}

type Tried = Pick<Candidate, "change" | "what" | "sentence"> & { readonly inputs: Inputs | null };

function tries(inputs: Inputs, request: WindowsRequest, route: RouteKey, manner: Manner): Tried[] {
  const { crop, conditioning, coveredFraction, stubbleCm } = request.swath;
  const { tedHour, tallStubbleCm, windrowCover } = HARVEST_DEFAULTS;
  const plan = request.treatments?.[0]?.plan ?? defaultPlan(route, crop, stubbleCm, coveredFraction);
  const has = (kind: "ted" | "rake") =>
    plan.some((step) => step.kind === kind && (step.routes?.includes(route) ?? true));
  const { legume, coarseStem } = CROP_CATALOGUE[crop];
  const widest = WIDTH_PRESETS.at(-1)?.share ?? 1;
  const tried: Tried[] = [];
  if (coveredFraction < widest - WIDE_ENOUGH) {
    const sentence = `Spread to ${Math.round(widest * 100)} % of the cut`;
    tried.push({ change: "wider", what: "swath width", sentence, inputs: withCover(inputs, widest, manner) });
  }
  if (conditioning === "none") {
    const next = legume || coarseStem ? "roll" : "impeller";
    const sentence = next === "roll" ? "Condition with rollers" : "Condition with an impeller";
    tried.push({
      change: "condition",
      what: "conditioning",
      sentence,
      inputs: { ...inputs, conditioning: next },
    });
  }
  if (!has("ted") && !coarseStem && stubbleCm < tallStubbleCm.value) {
    const texts = { ...inputs.texts, tedHour: { text: String(tedHour.value), units: "metric" } as const };
    const sentence = legume ? "Ted the next day (costs leaf)" : "Ted the next day";
    const next: Inputs = { ...inputs, ted: "morning-after", texts };
    tried.push({ change: "ted", what: "tedding", sentence, inputs: next });
  }
  // A wide swath of hay needs its rake to be picked up.
  if (has("rake") && coveredFraction <= windrowCover.value)
    tried.push({
      change: "no-rake",
      what: "raking",
      sentence: "Leave the rake",
      inputs: { ...inputs, rake: "none" },
    });
  return tried;
}

/**
 * The changes that could bring the chosen route's first window forward, at most 4, each as a question of that route and
 * cut hour alone.
 *
 * @param inputs the fields that the request was read from
 */
export function candidatesOf(
  inputs: Inputs,
  request: WindowsRequest,
  { cutUtc, route }: Chosen,
  manner: Manner,
): Candidate[] {
  if (ROUTE_CATALOGUE[route].kind !== "swath") return [];
  const { hour } = localParts(utcMs(cutUtc), request.weather.site.timeZone);
  return tries(inputs, request, route, manner).flatMap(({ inputs: changed, ...named }) => {
    const question = changed && readInputs(changed).question;
    if (!changed || !question) return [];
    const routes = question.routes?.filter((asked) => asked.route === route) ?? [];
    const { weather, nowUtc, seed } = request;
    return [
      {
        ...named,
        inputs: changed,
        request: { ...question, weather, nowUtc, seed, cutHours: [hour], routes },
      },
    ];
  });
}

/** The chosen route at the chosen cut; null where the answer has none. */
function routeAt(answer: WindowsAnswer | null, { cutUtc, route }: Chosen): RouteAnswer | null {
  const option = answer?.options.find((one) => one.cutUtc === cutUtc);
  return option?.routes.find((one) => one.route === route) ?? null;
}

interface First {
  readonly startMs: number;
  readonly rainedOn: boolean;
}

function firstOf(route: RouteAnswer | null): First | null {
  const window = route?.windows[0];
  return window ? { startMs: utcMs(window.startUtc), rainedOn: window.rainedOn } : null;
}

/** Below 0 where `a` is better: without rain before with it, then the sooner. */
function compared(a: First, b: First): number {
  return a.rainedOn === b.rainedOn ? a.startMs - b.startMs : a.rainedOn ? 1 : -1;
}

function changeText(route: RouteKey, sentence: string, now: First | null, first: First): string {
  const label = ROUTE_CATALOGUE[route].label.toLowerCase();
  if (now === null) return `${sentence}: ${label} would get a window.`;
  if (now.rainedOn && !first.rainedOn) return `${sentence}: ${label} before the rain.`;
  const hours = Math.round((now.startMs - first.startMs) / HOUR_MS);
  return `${sentence}: ${label} ${hours} h sooner.`;
}

/**
 * The candidate that helps most; null where none helps by an hour.
 *
 * @param answer what is shown now
 * @param answers one for each candidate, in their order; null where the model refused
 */
export function bestOf(
  chosen: Chosen,
  answer: WindowsAnswer,
  candidates: readonly Candidate[],
  answers: readonly (WindowsAnswer | null)[],
): BestChange | null {
  const now = firstOf(routeAt(answer, chosen));
  let best: { readonly candidate: Candidate; readonly first: First } | null = null;
  for (const [i, candidate] of candidates.entries()) {
    const first = firstOf(routeAt(answers[i] ?? null, chosen));
    if (first === null || (best !== null && compared(first, best.first) >= 0)) continue;
    best = { candidate, first };
  }
  if (best === null) return null;
  const { candidate, first } = best;
  const helps =
    now === null ||
    (now.rainedOn && !first.rainedOn) ||
    (now.rainedOn === first.rainedOn && now.startMs - first.startMs >= LEAST_GAIN_H * HOUR_MS);
  if (!helps) return null;
  return {
    candidate,
    gainH: now === null ? null : (now.startMs - first.startMs) / HOUR_MS,
    text: changeText(chosen.route, candidate.sentence, now, first),
  };
}
