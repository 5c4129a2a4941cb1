import { useEffect, useRef, useState } from "preact/hooks";
import type { Dispatch } from "../app/use-model.ts";
import { SelectField, TextField } from "../panel/Field.tsx";
import { PlaceNumberField } from "../panel/PlaceNumberField.tsx";
import type { Speech } from "../state/field-reader.ts";
import { readDegrees } from "../state/numbers.ts";
import type { State } from "../state/state.ts";
import {
  type ForecastPlace,
  isProvider,
  PROVIDER_LABELS,
  type ProviderName,
  readForecastPlace,
} from "../weather/forecast.ts";
import { readPlace } from "../weather/upload.ts";
import type { AskForecast } from "../weather/use-forecast.ts";
import { go } from "./go.ts";
import { findPlace, PLACE_TROUBLES, placeOf, zoneDoubt } from "./my-place.ts";
import type { PlaceErrors, PlaceField, PlaceTexts } from "./place-texts.ts";
import { loadPlaces, type SavedPlace, savePlace } from "./saved-places.ts";
import { spotText } from "./spot.ts";
import { useZoneOfPlace } from "./zone-of-place.ts";

/** Where file and samples are: ids of elements of the page. */
export interface Elsewhere {
  readonly ownId: string;
  readonly samplesId: string;
}

export interface UsePlaceProps extends Elsewhere {
  readonly state: Pick<State, "source" | "upload" | "forecast" | "nowMs" | "inputs">;
  readonly speech: Speech;
  readonly dispatch: Dispatch;
  readonly ask: AskForecast;
  readonly onClose: () => void;
}

type Finding = "no" | "asking" | "found" | { readonly trouble: string };

const SERVICES = [
  ["", "By the place"],
  ...Object.entries(PROVIDER_LABELS).map(([key, label]) => [key, label] as const),
] as const;

function useSavedPlaces(): readonly SavedPlace[] {
  const [places, setPlaces] = useState<readonly SavedPlace[]>([]);
  useEffect(() => {
    void loadPlaces().then(setPlaces);
  }, []);
  return places;
}

/** What is wrong with the fields that hold something: an empty one is told of when the forecast is asked for. */
function wrongWhileTyped(place: PlaceTexts, speech: Speech): PlaceErrors {
  const { errors } = readPlace(place, {}, speech);
  return Object.fromEntries(
    Object.entries(errors).filter(([field]) => field in place && place[field as PlaceField].trim() !== ""),
  );
}

/** The farm's place by the browser, as coordinates or from those used before; its forecast is one press away. */
export function UsePlace({ state, speech, dispatch, ask, onClose, ownId, samplesId }: UsePlaceProps) {
  const { source, upload, forecast, nowMs, inputs } = state;
  const { place } = upload;
  const known = source?.kind === "forecast" ? { asked: source.place, site: source.series.site } : null;
  const [finding, setFinding] = useState<Finding>("no");
  const [provider, setProvider] = useState<ProviderName | null>(known?.asked.provider ?? null);
  const heading = useRef<HTMLHeadingElement>(null);
  const places = useSavedPlaces();
  useEffect(() => heading.current?.focus(), []);

  useZoneOfPlace(place, dispatch);

  const request = (wanted: ForecastPlace) => {
    void savePlace({ name: inputs.fieldName.trim() || spotText(wanted, speech), place: wanted });
    ask(wanted);
    onClose();
  };
  const submit = (event?: Event) => {
    event?.preventDefault();
    const { errors } = readPlace(place, {}, speech);
    const read = readForecastPlace(place, errors, provider, known, upload.zoneFound);
    if ("place" in read) request(read.place);
    else dispatch({ kind: "place-errors", errors: read.errors });
  };
  const find = async () => {
    setFinding("asking");
    const found = await findPlace();
    if (typeof found === "string") {
      setFinding({ trouble: PLACE_TROUBLES[found] });
      return;
    }
    for (const [field, text] of Object.entries(placeOf(found)))
      dispatch({ kind: "place", field: field as PlaceField, text });
    setFinding("found");
  };

  const doubt = zoneDoubt(place.timeZone.trim(), readDegrees(place.longitude), nowMs);
  const errors = { ...upload.errors, ...wrongWhileTyped(upload.place, speech) };
  const numbers = { upload: { ...upload, errors }, dispatch, speech };
  return (
    <form class="use-place" aria-label="My place" onSubmit={submit} noValidate>
      <h2 ref={heading} tabIndex={-1}>
        My place
      </h2>
      <button type="button" class="aid" onClick={find} disabled={finding === "asking"}>
        {finding === "asking" ? "Asking the browser ..." : "Find where I am"}
      </button>
      <p role="status">
        {typeof finding === "object" ? finding.trouble : finding === "found" ? "Found, to about 1 km." : ""}
      </p>
      {places.length > 0 ? (
        <fieldset class="place-next saved-places">
          <legend>Places used before</legend>
          {places.map((saved) => (
            <button
              type="button"
              class="aid"
              key={spotText(saved.place)}
              onClick={() => request(saved.place)}
            >
              {saved.name} <span class="spot">{spotText(saved.place, speech)}</span>
            </button>
          ))}
        </fieldset>
      ) : null}
      <div class="place-fields">
        <PlaceNumberField label="Latitude, ° north" field="latitude" {...numbers} />
        <PlaceNumberField label="Longitude, ° east" field="longitude" {...numbers} />
        <SelectField
          label="Weather service"
          value={provider ?? ""}
          choices={SERVICES}
          onChoice={(key) => setProvider(isProvider(key) ? key : null)}
        />
      </div>
      <details class="place-more">
        <summary>Elevation and time zone are found from the place; correct them</summary>
        <div class="place-fields">
          <PlaceNumberField label="Elevation" field="elevationM" {...numbers} hint="empty = found" />
          <TextField
            label="Time zone of the farm"
            numeric={false}
            hint="an IANA name, as America/Chicago"
            value={place.timeZone}
            error={errors.timeZone}
            onText={(text) => dispatch({ kind: "place", field: "timeZone", text })}
          />
        </div>
        {doubt === null ? null : <p class="doubt">{doubt}</p>}
      </details>
      <div class="place-next">
        <button type="submit" class="main" disabled={forecast.asking !== null}>
          Get the forecast
        </button>
        <button type="button" class="aid" onClick={() => go(ownId)}>
          Upload a file
        </button>
        <button type="button" class="aid" onClick={() => go(samplesId)}>
          Pick a sample
        </button>
        <button type="button" class="aid" onClick={onClose}>
          Close
        </button>
      </div>
      <p class="hint">
        The server asks an open weather service for this place; nothing else of you is sent. Places used
        before are kept on this device alone.
      </p>
    </form>
  );
}
