import { useEffect, useRef, useState } from "preact/hooks";
import { dayClockText, dayDateText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import type { CrewDraft, SpotOfSite, WeatherOfPlaces } from "./crew-draft.ts";
import { utcText } from "./MomentField.tsx";
import { fetchPlaces } from "./place-forecasts.ts";

interface PlaceWeatherProps {
  readonly draft: CrewDraft;
  readonly manner: Manner;
  /** Where a place lies of which nothing was typed. */
  readonly spot: SpotOfSite;
  readonly onDraft: (draft: CrewDraft) => void;
}

/** "with 51 members", "with 21 to 51 members", "some of them without members"; nothing where none has any. */
function membersText(series: WeatherOfPlaces["series"]): string {
  const counts = Object.values(series).map(({ members }) => members?.length ?? 0);
  const [least, most] = [Math.min(...counts), Math.max(...counts)];
  if (counts.length === 0 || most === 0) return ", without members";
  if (least === 0) return ", some of them without members";
  const count = least === most ? String(most) : `${least} to ${most}`;
  return `, with ${count} ${count === "1" ? "member" : "members"}`;
}

/** Which weather the places stand in. */
export function weatherWords({ from, series, nowUtc }: WeatherOfPlaces, manner: Manner): string {
  if (from === "forecast") {
    const when = nowUtc === null ? "" : `, fetched ${dayClockText(nowUtc, manner)}`;
    return `Each place stands in its own forecast${when}${membersText(series)}.`;
  }
  const hours = Object.values(series)[0]?.hours.startUtc ?? [];
  const [first, last] = [hours[0], hours.at(-1)];
  const span = first && last ? `, ${dayDateText(first, manner)} to ${dayDateText(last, manner)}` : "";
  return `The places stand in the weather of the file${span}.`;
}

/** The same places at the same spots. */
const isSame = (one: CrewDraft, other: CrewDraft) =>
  JSON.stringify([Object.keys(one.siteNames), one.spots]) ===
  JSON.stringify([Object.keys(other.siteNames), other.spots]);

/** Weather of the places' own: forecasts of where they lie, what came with a file, and the way back to the page's. */
export function PlaceWeather({ draft, manner, spot, onDraft }: PlaceWeatherProps) {
  const [said, setSaid] = useState<readonly string[]>([]);
  const running = useRef<AbortController | null>(null);
  const [busy, setBusy] = useState(false);
  // The crew may be changed while the forecasts are on their way.
  const latest = useRef(draft);
  latest.current = draft;
  const end = () => {
    running.current?.abort();
    running.current = null;
    setBusy(false);
  };
  useEffect(() => () => running.current?.abort(), []);
  const fetchAll = async () => {
    const stop = new AbortController();
    running.current = stop;
    setBusy(true);
    const asked = draft;
    const got = await fetchPlaces(asked, spot, stop.signal, (done, of) => {
      const places = of === 1 ? "1 place" : `${of} places`;
      if (!stop.signal.aborted) setSaid([`Fetching the forecast of each place: ${done} of ${places} ...`]);
    });
    if (stop.signal.aborted) return;
    end();
    if ("failures" in got) setSaid(got.failures);
    else if (!isSame(asked, latest.current))
      setSaid(["The places were changed meanwhile: fetch their forecasts again."]);
    else {
      setSaid(got.notes);
      const { series } = got;
      onDraft({ ...latest.current, weather: { from: "forecast", series, nowUtc: utcText(Date.now()) } });
    }
  };
  const { weather } = draft;
  return (
    <div class="crew-file">
      {weather === undefined ? null : <p>{weatherWords(weather, manner)}</p>}
      <div class="crew-buttons">
        <button type="button" class="aid" disabled={busy} onClick={() => void fetchAll()}>
          Fetch the forecast of each place
        </button>
        {weather === undefined ? null : (
          <button
            type="button"
            class="aid"
            onClick={() => {
              end();
              setSaid([]);
              const { weather: _own, ...rest } = draft;
              onDraft(rest);
            }}
          >
            Use the weather of the page
          </button>
        )}
      </div>
      <div role="status">
        {said.map((text) => (
          <p key={text}>{text}</p>
        ))}
      </div>
    </div>
  );
}
