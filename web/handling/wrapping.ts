import type { CropKey } from "../../model/drying/keys.ts";
import {
  BUTYRIC_BY_DELAY,
  filmLayers,
  WRAPPING,
  type WrapDelay,
  wrapDelay,
} from "../../model/harvest/route-details/index.ts";
import { type Manner, numberText, quantityText } from "../format/manner.ts";
import type { StripRow } from "./strip.ts";

/** From the baler to the film: how long, what a delay costs, how many layers for how long a store. */

const LATE_H = WRAPPING.lateH.value;
const TOO_LATE_H = WRAPPING.tooLateH.value;
export const DELAY_SCALE = { left: 0, right: 36, ticks: [0, 6, 12, 18, 24, 30, 36] } as const;

export function delayStrip(): readonly StripRow[] {
  return [
    {
      name: "Baler to film",
      zones: [
        { from: 0, to: LATE_H, kind: "fits", text: "in time" },
        { from: LATE_H, to: TOO_LATE_H, kind: "care", text: "late" },
        { from: TOO_LATE_H, to: DELAY_SCALE.right, kind: "stop", text: "too late" },
      ],
    },
  ];
}

/** What the trial found nearest at or after a delay, per cent of butyric acid; past its last point, at least that. */
export function butyricPct(hours: number): { readonly pct: number; readonly least: boolean } {
  const found = BUTYRIC_BY_DELAY.find(({ toH }) => hours <= toH);
  const last = BUTYRIC_BY_DELAY[BUTYRIC_BY_DELAY.length - 1];
  return found ? { pct: found.pct, least: false } : { pct: last?.pct ?? 0, least: hours > (last?.toH ?? 0) };
}

/** @param hours as typed; null = none was */
export function delaySentence(hours: number | null, manner: Manner): string {
  const usual = `Wrap within ${LATE_H} hours of baling, ${TOO_LATE_H} at the very most; sooner is better.`;
  if (hours === null) return usual;
  const { text }: WrapDelay = wrapDelay(hours);
  const { pct, least } = butyricPct(hours);
  const cost =
    pct === 0
      ? "Wrapped at once the trial found no butyric acid."
      : `The trial found ${least ? "over " : "up to "}${numberText(pct, 2, manner)} % butyric acid by then.`;
  return `${numberText(hours, 1, manner)} h from baler to film. ${text} ${cost}`;
}

export function delayTable(manner: Manner): readonly (readonly string[])[] {
  return BUTYRIC_BY_DELAY.map(({ fromH, toH, pct }) => [
    toH === 0 ? "at once" : fromH === toH ? `${toH} h` : `${fromH} to ${toH} h`,
    pct === 0 ? "none" : `${numberText(pct, 2, manner)} %`,
    wrapDelay(toH).text,
  ]);
}

const WEEKS_PER_YEAR = 52;
/** Length of the trial that kept wrapped bales under 6 layers. */
const TRIAL_WEEKS = 26;
const TRIAL = "6 layers, 6 months: 2-12 % lost (Huhnke, Muck & Payton 1997, Appl. Eng. Agric.)";
const YEAR_WEEKS = Math.round((WRAPPING.keepsMonths.value / 12) * WEEKS_PER_YEAR);

export interface FilmRow {
  readonly weeks: string;
  readonly layers: string;
  readonly why: string;
}

/** Layers by weeks of storage. No source counts layers by weeks: one count holds until the film itself is too old. */
export function filmRows(crop: CropKey): readonly FilmRow[] {
  const layers = filmLayers(crop);
  const coarse = layers === WRAPPING.coarseLayers.value;
  const { source } = coarse ? WRAPPING.coarseLayers : WRAPPING.layers;
  return [
    { weeks: `to ${TRIAL_WEEKS}`, layers: String(layers), why: `${source}; ${TRIAL}` },
    {
      weeks: `${TRIAL_WEEKS + 1} to ${YEAR_WEEKS}`,
      layers: String(layers),
      why: `${WRAPPING.keepsMonths.source} (from memory)`,
    },
    { weeks: `over ${YEAR_WEEKS}`, layers: "no count holds", why: "feed it before the film is a year old" },
  ];
}

/** The row of so many weeks. */
export function filmRowOf(weeks: number): number {
  return weeks <= TRIAL_WEEKS ? 0 : weeks <= YEAR_WEEKS ? 1 : 2;
}

export function filmSentence(crop: CropKey, weeks: number | null, manner: Manner): string {
  const layers = filmLayers(crop);
  const coarse = layers === WRAPPING.coarseLayers.value;
  const why = coarse
    ? `coarse stems puncture film; ${WRAPPING.layers.value} are published for corn`
    : "4 is the least that is published, 6 stop heating";
  const kept =
    weeks === null
      ? `feed it within about ${WRAPPING.keepsMonths.value} months.`
      : filmRowOf(weeks) === 2
        ? `${numberText(weeks, 0, manner)} weeks is more than film lasts: feed it within about ${WRAPPING.keepsMonths.value} months.`
        : `enough for ${numberText(weeks, 0, manner)} weeks.`;
  return `${layers} layers of film: ${why}; ${kept} Patch holes the day they are found.`;
}

/** "Square bales over 635 kg tear the film." */
export function tearWords(manner: Manner): string {
  return `Square bales over ${quantityText(WRAPPING.tearsKg.value, "mass", manner)} as they are tear the film.`;
}
