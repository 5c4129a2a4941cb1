import { useEffect, useRef, useState } from "preact/hooks";
import type { Dispatch } from "../app/use-model.ts";
import type { ReadLink } from "../link/read-link.ts";
import { weatherMark } from "../link/weather-mark.ts";
import type { PlaceField } from "../place/place-texts.ts";
import type { State } from "../state/state.ts";
import { keepOnDevice, readDevice } from "./device.ts";
import { type ReadKept, visitOf, worthKeeping } from "./kept.ts";

/** A visit is kept once it has rested this long. */
const REST_MS = 1000;

export interface Offline {
  /** Whether it is known what the device kept. */
  readonly ready: boolean;
  /** When the weather that is shown was kept, UTC ms; null where it is from this visit. */
  readonly keptMs: number | null;
}

/** Whether what was kept is what the address asks for: the plain address, or the mark of the same file. */
export function answersLink({ source }: ReadKept, link: ReadLink): boolean {
  if (!link.given) return true;
  // The forecast of a link is asked for anew; until it comes, that of the same place stands in for it.
  if (source.kind === "forecast")
    return (
      link.forecast !== null &&
      source.place.latitude === link.forecast.latitude &&
      source.place.longitude === link.forecast.longitude
    );
  return source.kind === "upload" && link.ownMark === weatherMark(source.series);
}

/**
 * The last weather and fields of this device: put back when the page opens without a link of its own, kept as they
 * change. Also tells the state whether there is a network.
 */
export function useOffline(state: State, dispatch: Dispatch, link: ReadLink): Offline {
  const [offline, setOffline] = useState<Offline>({ ready: false, keptMs: null });
  const kept = useRef<ReadKept | null>(null);

  useEffect(() => {
    const follow = () => dispatch({ kind: "online", online: navigator.onLine });
    addEventListener("online", follow);
    addEventListener("offline", follow);
    return () => {
      removeEventListener("online", follow);
      removeEventListener("offline", follow);
    };
  }, []);

  useEffect(() => {
    let gone = false;
    void readDevice().then((read) => {
      if (gone) return;
      kept.current = read;
      const back = read !== null && answersLink(read, link);
      if (back) {
        if (!link.given) dispatch({ kind: "inputs", what: "kept", inputs: read.link.inputs });
        for (const [field, text] of Object.entries(read.place))
          dispatch({ kind: "place", field: field as PlaceField, text });
        dispatch({ kind: "source", source: read.source });
      }
      setOffline({ ready: true, keptMs: back ? read.savedMs : null });
    });
    return () => {
      gone = true;
    };
  }, []);

  const { picture, past, upload } = state;
  useEffect(() => {
    if (!offline.ready || !worthKeeping({ picture, past }, kept.current)) return;
    // What was only put back is not kept again: its time would be this visit's.
    if (picture?.source === kept.current?.source && picture?.inputs === kept.current?.link.inputs) return;
    const timer = setTimeout(() => {
      const visit = visitOf({ picture, upload }, Date.now());
      if (visit) void keepOnDevice(visit);
    }, REST_MS);
    return () => clearTimeout(timer);
  }, [picture, past, upload.place, offline.ready]);

  const same = picture !== null && picture.source === kept.current?.source;
  return same ? offline : { ...offline, keptMs: null };
}
