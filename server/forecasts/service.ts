import { LRUCache } from "lru-cache";
import {
  addDays,
  DAY_MS,
  HOUR_MS,
  localDayKey,
  startOfLocalDay,
  utcLabel,
  type WeatherSeries,
} from "../../model/weather/index.ts";
import { SERVICE_LABELS, SERVICE_TROUBLES } from "../../model/weather/service-words.ts";
import { asFailure, type UpstreamFailure } from "./failure.ts";
import { beforeDeadline, type Network } from "./network.ts";
import { providerOrder, timeZoneOf } from "./place.ts";
import {
  type ArchiveProvider,
  type Note,
  type Provider,
  type ProviderAnswer,
  type ProviderName,
  WIDENED_INSTEAD,
} from "./provider.ts";
import {
  ageInWords,
  cutToSpan,
  type Place,
  requireUseful,
  type SeriesWithNotes,
  toSeries,
} from "./to-series.ts";

/** The chain of services: asked in order, within one deadline, with the last good answer as the last resort. */

export interface AskedPlace {
  readonly latitude: number;
  readonly longitude: number;
  /** null = found from the place. */
  readonly timeZone: string | null;
  readonly elevationM: number | null;
}

export interface AskedForecast extends AskedPlace {
  readonly provider: ProviderName | null;
  readonly ensemble: boolean;
}

export interface AskedArchive extends AskedPlace {
  /** First and last local day of the site, YYYY-MM-DD. */
  readonly from: string;
  readonly to: string;
}

export interface Tried {
  readonly provider: ProviderName;
  readonly failure: UpstreamFailure;
}

export type WeatherAnswer =
  | ({ readonly ok: true } & SeriesWithNotes)
  | { readonly ok: false; readonly tried: readonly Tried[] };

export interface WeatherService {
  readonly forecast: (asked: AskedForecast) => Promise<WeatherAnswer>;
  readonly archive: (asked: AskedArchive) => Promise<WeatherAnswer>;
  readonly nowMs: () => number;
}

/** An answer or a clear error is out by then, whatever happens. */
export const ANSWER_LIMIT_MS = 40_000;
/** Left for reading, checking and writing the answer. */
const RESERVE_MS = 2000;
/** Hours times trajectories of last good answers that are remembered. */
const MAX_REMEMBERED = 1_000_000;

/** Rounded before any request: 4 decimals are some 10 m, and what the services accept. */
const round4 = (degrees: number) => Math.round(degrees * 1e4) / 1e4;

function placeOf({ latitude, longitude, timeZone, elevationM }: AskedPlace): Place {
  return { latitude, longitude, elevationM, timeZone: timeZone ?? timeZoneOf(latitude, longitude) };
}

function fallbackNote(answered: ProviderName, tried: readonly Tried[]): Note[] {
  if (tried.length === 0) return [];
  const why = tried
    .map(({ provider, failure }) => `${SERVICE_LABELS[provider]} ${SERVICE_TROUBLES[failure.code]}`)
    .join("; ");
  return [{ code: "fallback", text: `From ${SERVICE_LABELS[answered]}, because ${why}.` }];
}

export function weatherService(
  network: Network,
  providers: readonly Provider[],
  archives: readonly ArchiveProvider[],
): WeatherService {
  const lastGood = new LRUCache<string, SeriesWithNotes>({
    maxSize: MAX_REMEMBERED,
    sizeCalculation: ({ series }) =>
      Math.max(1, series.hours.startUtc.length * (1 + (series.members?.length ?? 0))),
  });

  /** Asks one service after the other, each with its share of the time that is left. */
  async function askInOrder<P extends { readonly name: ProviderName }>(
    order: readonly P[],
    ask: (provider: P, deadlineMs: number) => Promise<ProviderAnswer>,
    use: (answer: ProviderAnswer) => SeriesWithNotes,
  ): Promise<WeatherAnswer> {
    const endMs = network.nowMs() + ANSWER_LIMIT_MS - RESERVE_MS;
    const tried: Tried[] = [];
    for (const [k, provider] of order.entries()) {
      const nowMs = network.nowMs();
      const deadlineMs = nowMs + (endMs - nowMs) / (order.length - k);
      try {
        const answer = await beforeDeadline(network, ask(provider, deadlineMs), deadlineMs);
        const { series, notes } = use(answer);
        return { ok: true, series, notes: [...fallbackNote(provider.name, tried), ...notes] };
      } catch (error) {
        const failure = asFailure(error);
        network.log(`${provider.name}: ${failure.code}: ${failure.message}`);
        tried.push({ provider: provider.name, failure });
      }
    }
    return { ok: false, tried };
  }

  /** The last good answer for the place under the clock and elevation now asked for, with its age; else the failure. */
  function orLastGood(answer: WeatherAnswer, keys: readonly string[], place: Place): WeatherAnswer {
    const [first] = keys;
    if (answer.ok) {
      if (first !== undefined) lastGood.set(first, { series: answer.series, notes: answer.notes });
      return answer;
    }
    const nowMs = network.nowMs();
    for (const key of keys) {
      const kept = lastGood.get(key);
      if (kept === undefined || (kept.series.origin === "forecast" && hasEnded(kept.series, nowMs))) continue;
      const { series } = kept;
      const why = answer.tried.map(({ provider, failure }) => `${provider} ${failure.message}`).join("; ");
      const text =
        `No service answered (${why}). This is the last good answer: ${ageInWords(series, nowMs)} old, ` +
        `fetched ${series.fetchedUtc}. A file of your own weather or a sample is another way on.`;
      const elevationM = place.elevationM ?? series.site.elevationM;
      const notes = [{ code: "stale", text }, ...kept.notes.filter(({ code }) => code !== "fallback")];
      return { ok: true, series: { ...series, site: { ...place, elevationM } }, notes };
    }
    return answer;
  }

  return {
    nowMs: network.nowMs,
    forecast: async (asked) => {
      const place = placeOf(asked);
      const latitude = round4(asked.latitude);
      const longitude = round4(asked.longitude);
      const order = providerOrder(latitude, longitude, asked.provider).flatMap((name) =>
        providers.filter((provider) => provider.name === name),
      );
      const question = { latitude, longitude, elevationM: asked.elevationM, ensemble: asked.ensemble };
      const answer = await askInOrder(
        order,
        (provider, deadlineMs) => provider.forecast(question, deadlineMs),
        (given) => {
          requireUseful(given, network.nowMs());
          const made = toSeries(given, place, "forecast");
          if (!asked.ensemble || given.members.length > 0) return made;
          const said = made.notes.some(({ code }) => code === "ensemble-missing");
          const text = `${SERVICE_LABELS[given.provider]} has no ensemble. ${WIDENED_INSTEAD}`;
          return said ? made : { ...made, notes: [...made.notes, { code: "ensemble-missing", text }] };
        },
      );
      const key = (ensemble: boolean) =>
        `forecast ${latitude} ${longitude} ${ensemble ? "ensemble" : "single"}`;
      return orLastGood(answer, [key(asked.ensemble), key(!asked.ensemble)], place);
    },
    archive: async (asked) => {
      const place = placeOf(asked);
      const latitude = round4(asked.latitude);
      const longitude = round4(asked.longitude);
      const fromMs = startOfLocalDay(place.timeZone, asked.from);
      const toMs = startOfLocalDay(place.timeZone, addDays(asked.to, 1));
      // The last hour needs the instant at its end; nothing is asked of days that have not come.
      const dayOf = (ms: number) => utcLabel(Math.min(ms, network.nowMs())).slice(0, 10);
      const question = {
        latitude,
        longitude,
        elevationM: asked.elevationM,
        fromDay: dayOf(Math.floor(fromMs / HOUR_MS) * HOUR_MS),
        toDay: dayOf(Math.ceil(toMs / HOUR_MS) * HOUR_MS),
      };
      const answer = await askInOrder(
        archives,
        (provider, deadlineMs) => provider.archive(question, deadlineMs),
        (given) => {
          const made = toSeries(given, place, "archive");
          return { ...made, series: cutToSpan(made.series, fromMs, toMs) };
        },
      );
      return orLastGood(answer, [`archive ${latitude} ${longitude} ${asked.from} ${asked.to}`], place);
    },
  };
}

/** True when the forecast's last hour is past: it then says nothing of what is to come. */
function hasEnded(series: WeatherSeries, nowMs: number): boolean {
  return Date.parse(series.hours.startUtc.at(-1) ?? "") + HOUR_MS <= nowMs;
}

/** The present local day of a place, for the check of a span. */
export function todayAt(asked: AskedPlace, nowMs: number): string {
  return localDayKey(nowMs, placeOf(asked).timeZone);
}

/** The first day that the archive of reanalyses holds. */
export const ARCHIVE_FIRST_DAY = "1940-01-01";
/** So many days can be asked for at once: what a course may be followed through. */
export const ARCHIVE_MAX_DAYS = 731;

/** Days from one calendar day to the next, both counted. */
export function daysOf(from: string, to: string): number {
  return Math.round((Date.parse(to) - Date.parse(from)) / DAY_MS) + 1;
}
