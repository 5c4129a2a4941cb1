import type { WeatherSeries } from "../../model/weather/index.ts";
import { listText } from "../format/words.ts";
import { fetchWithMembers } from "../weather/fetch-with-members.ts";
import type { ForecastAnswer, ForecastFailure } from "../weather/forecast.ts";
import type { CrewDraft, SpotOfSite } from "./crew-draft.ts";

/** Forecasts of the places of a crew, with the members that its chances are of. */

type Places = Pick<CrewDraft, "siteNames" | "spots">;

/** Forecasts under way at once: each asks twice, and a browser keeps more questions than this waiting. */
const AT_ONCE = 3;

const LATE =
  "Its members did not come: its chances are those of the one forecast, widened by its usual errors.";

/** What came of it: a series for each place, or why there is none. */
export type PlaceForecasts =
  | {
      readonly series: Readonly<Record<string, WeatherSeries>>;
      /** Of which places no members came, and why. */
      readonly notes: readonly string[];
    }
  | { readonly failures: readonly string[] };

interface Asked {
  readonly ids: readonly string[];
  readonly spot: SpotOfSite;
}

interface Got extends Asked {
  readonly answer: ForecastAnswer;
  /** Why it has no members; null where it has. */
  readonly without: string | null;
}

/** Places at one spot have one forecast. */
function spotsAsked({ siteNames, spots = {} }: Places, spot: SpotOfSite): Asked[] {
  const asked = new Map<string, { ids: string[]; spot: SpotOfSite }>();
  for (const id of Object.keys(siteNames)) {
    const { latitude, longitude } = spots[id] ?? spot;
    const key = `${latitude} ${longitude}`;
    const known = asked.get(key) ?? { ids: [], spot: { latitude, longitude } };
    known.ids.push(id);
    asked.set(key, known);
  }
  return [...asked.values()];
}

async function fetchSpot({ ids, spot }: Asked, stop: AbortSignal): Promise<Got> {
  const place = { ...spot, elevationM: null, timeZone: null, provider: null };
  // A plan is made once they all are there: the members are waited for.
  const { first, late } = await fetchWithMembers(place, stop);
  const whole = await late;
  const answer = whole ? { forecast: whole } : first;
  if ("failure" in answer || (answer.forecast.series.members?.length ?? 0) > 0) {
    return { ids, spot, answer, without: null };
  }
  const said = answer.forecast.notes.find(({ code }) => code === "ensemble-missing")?.text;
  return { ids, spot, answer, without: said ?? LATE };
}

/** "Home farm and Hill farm: ..." of texts that are of several places. */
function byText(places: Places, told: readonly { readonly ids: readonly string[]; readonly text: string }[]) {
  const texts = [...new Set(told.map(({ text }) => text))];
  return texts.map((text) => {
    const ids = new Set(told.flatMap((one) => (one.text === text ? one.ids : [])));
    const names = Object.entries(places.siteNames).filter(([id]) => ids.has(id));
    return `${listText(names.map(([id, name]) => name || id))}: ${text}`;
  });
}

function failureText({ message, lines, fields }: ForecastFailure): string {
  const more = [...lines, ...Object.values(fields)].map((line) => line.replace(/\.?$/, "."));
  return [message, ...more].join(" ");
}

/**
 * The forecast of every place with its members; none where one place has none.
 *
 * @param spot where a place lies of which nothing was typed
 * @param onDone how many places have theirs
 */
export async function fetchPlaces(
  places: Places,
  spot: SpotOfSite,
  stop: AbortSignal,
  onDone: (done: number, of: number) => void,
): Promise<PlaceForecasts> {
  const waiting = spotsAsked(places, spot);
  const of = Object.keys(places.siteNames).length;
  const got: Got[] = [];
  onDone(0, of);
  const work = async () => {
    for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
      got.push(await fetchSpot(next, stop));
      onDone(
        got.reduce((sum, { ids }) => sum + ids.length, 0),
        of,
      );
    }
  };
  await Promise.all(Array.from({ length: AT_ONCE }, work));
  const failed = got.flatMap(({ ids, answer }) =>
    "failure" in answer ? [{ ids, text: failureText(answer.failure) }] : [],
  );
  if (failed.length > 0) return { failures: byText(places, failed) };
  const series = got.flatMap(({ ids, answer }) =>
    "forecast" in answer ? ids.map((id) => [id, answer.forecast.series] as const) : [],
  );
  const without = got.flatMap(({ ids, without: text }) => (text === null ? [] : [{ ids, text }]));
  return { series: Object.fromEntries(series), notes: byText(places, without) };
}
