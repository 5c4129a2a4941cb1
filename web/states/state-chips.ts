import type { WeatherSeries } from "../../model/weather/index.ts";
import type { Manner } from "../format/manner.ts";
import type { Picture } from "../state/state.ts";
import { spanInWords, weatherAge } from "./age.ts";
import { missingHours } from "./missing-hours.ts";
import { pastOf, pastText } from "./past.ts";

/** A short fact about the weather; one with a caution is drawn dashed. */
export interface StateChip {
  readonly text: string;
  readonly caution: boolean;
}

/** "Forecast 14 h old"; null where age means nothing. */
export function ageChip(
  series: WeatherSeries,
  nowMs: number,
  manner: Pick<Manner, "locale">,
): StateChip | null {
  const { level, hours } = weatherAge(series, nowMs);
  if (hours === null || level === "none") return null;
  const text = `Forecast ${spanInWords(hours, manner)} old`;
  switch (level) {
    case "fresh":
      return { text, caution: false };
    case "old":
      return { text, caution: true };
    case "stale":
      return { text: `${text}: look for a newer one before cutting`, caution: true };
    case "expired":
      return { text: `${text}: too old to decide by`, caution: true };
  }
}

const HOUR_MS = 3_600_000;

/** "Offline. Weather 10 h old", or how long ago the device kept it; null while there is a network. */
export function offlineChip(
  {
    online,
    nowMs,
    keptMs,
  }: { readonly online: boolean; readonly nowMs: number; readonly keptMs: number | null },
  series: WeatherSeries | null,
  manner: Pick<Manner, "locale">,
): StateChip | null {
  if (online) return null;
  if (series === null) return { text: "Offline, and no weather is kept on this device", caution: true };
  const { hours } = weatherAge(series, nowMs);
  if (hours !== null) return { text: `Offline. Weather ${spanInWords(hours, manner)} old`, caution: true };
  if (series.origin === "sample") return { text: "Offline. Invented weather", caution: true };
  if (keptMs === null) return { text: "Offline. Weather from this visit", caution: true };
  const kept = spanInWords(Math.max(0, (nowMs - keptMs) / HOUR_MS), manner);
  return { text: `Offline. Weather kept ${kept} ago`, caution: true };
}

export interface PageState {
  readonly online: boolean;
  readonly nowMs: number;
  /** When the device kept the weather that is shown, UTC ms; null where it is from this visit. */
  readonly keptMs: number | null;
}

/** What the state of the network and of the weather takes from the answer's worth, the gravest first. */
export function stateChips(
  { source, answer }: Pick<Picture, "source" | "answer">,
  state: PageState,
  manner: Manner,
): StateChip[] {
  const { series } = source;
  const offline = offlineChip(state, series, manner);
  const age = ageChip(series, state.nowMs, manner);
  // Offline says the age too.
  const aged = offline !== null && age !== null && !age.text.includes(":") ? null : age;
  const missing = missingHours(series, answer, manner).map((text) => ({ text, caution: true }));
  const past = weatherAge(series, state.nowMs).level === "expired" ? null : pastOf(source, state.nowMs);
  const behind = past && { text: pastText(past, manner), caution: true };
  return [behind, offline, aged, ...missing].filter((chip) => chip !== null);
}
