import { useState } from "preact/hooks";
import { dayClockText, dayDateText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { fetchForecast } from "../weather/forecast.ts";
import type { CrewDraft, SpotOfSite, WeatherOfPlaces } from "./crew-draft.ts";
import { utcText } from "./MomentField.tsx";

interface PlaceWeatherProps {
  readonly draft: CrewDraft;
  readonly manner: Manner;
  /** Where a place lies of which nothing was typed. */
  readonly spot: SpotOfSite;
  readonly onDraft: (draft: CrewDraft) => void;
}

/** Which weather the places stand in. */
export function weatherWords({ from, series, nowUtc }: WeatherOfPlaces, manner: Manner): string {
  if (from === "forecast") {
    const when = nowUtc === null ? "" : `, fetched ${dayClockText(nowUtc, manner)}`;
    return `Each place stands in its own forecast${when}.`;
  }
  const hours = Object.values(series)[0]?.hours.startUtc ?? [];
  const [first, last] = [hours[0], hours.at(-1)];
  const span = first && last ? `, ${dayDateText(first, manner)} to ${dayDateText(last, manner)}` : "";
  return `The places stand in the weather of the file${span}.`;
}

/** Weather of the places' own: forecasts of where they lie, what came with a file, and the way back to the page's. */
export function PlaceWeather({ draft, manner, spot, onDraft }: PlaceWeatherProps) {
  const [said, setSaid] = useState<string | null>(null);
  const [busy, setBusy] = useState(false);
  const { weather, ...rest } = draft;
  const fetchAll = async () => {
    setBusy(true);
    setSaid("Fetching the forecast of each place ...");
    const got = await Promise.all(
      Object.entries(draft.siteNames).map(async ([id, name]) => {
        const { latitude, longitude } = draft.spots?.[id] ?? spot;
        const place = { latitude, longitude, elevationM: null, timeZone: null, provider: null };
        return { id, name, answer: await fetchForecast(place, new AbortController().signal) };
      }),
    );
    setBusy(false);
    const failed = got.flatMap(({ name, answer }) =>
      "failure" in answer ? [`${name}: ${answer.failure.message}`] : [],
    );
    if (failed.length > 0) {
      setSaid(failed.join(" "));
      return;
    }
    setSaid(null);
    const series = Object.fromEntries(
      got.flatMap(({ id, answer }) => ("forecast" in answer ? [[id, answer.forecast.series] as const] : [])),
    );
    onDraft({ ...rest, weather: { from: "forecast", series, nowUtc: utcText(Date.now()) } });
  };
  return (
    <div class="crew-file">
      {weather === undefined ? null : <p>{weatherWords(weather, manner)}</p>}
      <div class="crew-buttons">
        <button type="button" class="aid" disabled={busy} onClick={() => void fetchAll()}>
          Fetch the forecast of each place
        </button>
        {weather === undefined ? null : (
          <button type="button" class="aid" onClick={() => onDraft(rest)}>
            Use the weather of the page
          </button>
        )}
      </div>
      <p role="status">{said}</p>
    </div>
  );
}
