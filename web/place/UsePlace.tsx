import { useEffect, useRef, useState } from "preact/hooks";
import { type Dispatch, deviceZone } from "../app/use-model.ts";
import { TextField } from "../panel/Field.tsx";
import { readNumber } from "../state/numbers.ts";
import type { PlaceField, Upload } from "../state/state.ts";
import { readPlace } from "../weather/upload.ts";
import { findPlace, PLACE_ENTRIES, PLACE_TROUBLES, placeOf, zoneDoubt } from "./my-place.ts";

export interface UsePlaceProps {
  readonly upload: Upload;
  readonly nowMs: number;
  readonly dispatch: Dispatch;
  readonly onClose: () => void;
  /** Where the file is put in, and where a sample is picked: ids of elements of the page. */
  readonly ownId: string;
  readonly samplesId: string;
}

type Finding = "no" | "asking" | "found" | { readonly trouble: string };

/** Goes to a part of the page and puts the keyboard there. */
function go(id: string): void {
  const target = document.getElementById(id);
  const field = target?.matches("select, input")
    ? target
    : target?.querySelector<HTMLElement>("input, select");
  const shown = target && target.getClientRects().length > 0 ? target : field;
  shown?.scrollIntoView({ block: "start" });
  (field as HTMLElement | null | undefined)?.focus({ preventScroll: true });
}

/** The farm's place by the browser or as coordinates, and what can be done with it. */
export function UsePlace({ upload, nowMs, dispatch, onClose, ownId, samplesId }: UsePlaceProps) {
  const [finding, setFinding] = useState<Finding>("no");
  const heading = useRef<HTMLHeadingElement>(null);
  const { place } = upload;
  useEffect(() => heading.current?.focus(), []);

  const find = async () => {
    setFinding("asking");
    const found = await findPlace();
    if (typeof found === "string") {
      setFinding({ trouble: PLACE_TROUBLES[found] });
      return;
    }
    const zone = deviceZone();
    for (const [field, text] of Object.entries(placeOf(found, zone)))
      dispatch({ kind: "place", field: field as PlaceField, text });
    setFinding("found");
  };

  const { errors } = readPlace(place);
  const doubt = zoneDoubt(place.timeZone.trim(), readNumber(place.longitude), nowMs);
  const typed = place.latitude.trim() !== "" && place.longitude.trim() !== "";
  const known = typed && PLACE_ENTRIES.every(([field]) => errors[field] === undefined);
  return (
    <section class="use-place" aria-label="My place">
      <h2 ref={heading} tabIndex={-1}>
        My place
      </h2>
      <button type="button" class="aid" onClick={find} disabled={finding === "asking"}>
        {finding === "asking" ? "Asking the browser ..." : "Find where I am"}
      </button>
      <p role="status">
        {typeof finding === "object" ? finding.trouble : finding === "found" ? "Found, to about 1 km." : ""}
      </p>
      <div class="place-fields">
        {PLACE_ENTRIES.map(([field, label]) => (
          <TextField
            key={field}
            label={label}
            numeric={field !== "timeZone"}
            {...(field === "timeZone" ? {} : { unit: field === "latitude" ? "° north" : "° east" })}
            value={place[field]}
            error={place[field].trim() === "" ? undefined : errors[field]}
            onText={(text) => dispatch({ kind: "place", field, text })}
          />
        ))}
      </div>
      {doubt === null ? null : <p class="doubt">{doubt}</p>}
      <p>
        {known ? "The place is put into the form below. " : ""}
        This page cannot fetch a forecast for a place yet. It needs a file of your weather, or one of the
        invented samples to try it out.
      </p>
      <div class="place-next">
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
    </section>
  );
}
