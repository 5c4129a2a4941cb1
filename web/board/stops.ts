import type { RouteKey } from "../../model/harvest/keys.ts";
import { rainSpans } from "./rain-spans.ts";
import type { Telling } from "./telling.ts";
import type { BoardPicture } from "./to-board.ts";

/** What a press does; where it does nothing else, it only tells. */
export type Press =
  | {
      readonly kind: "choose";
      readonly optionId: string;
      readonly route: RouteKey | null;
      /** Start of the later window that is chosen; null = the route's first. */
      readonly laterUtc: string | null;
    }
  | { readonly kind: "unfold"; readonly dayKey: string; readonly expanded: boolean }
  | { readonly kind: "tell" };

/** A place of the board that is pointed at, focused or pressed. */
export interface Stop {
  readonly telling: Telling;
  readonly press: Press;
  /** With the focus on it, the hour that is looked at, UTC ms; null = none. */
  readonly hourMs: number | null;
}

/** The rain along the top as a whole. */
export const RAIN_STOP = "rain";

/** The names by which the places of the board are found: `data-at` of their buttons. */
export const stopId = {
  row: (optionId: string) => `row ${optionId}`,
  vessel: (optionId: string, key: string) => `window ${optionId} ${key}`,
  unfold: (dayKey: string) => `unfold ${dayKey}`,
  rain: (key: string) => `rain ${key}`,
  missing: (fromMs: number, sentence: string) => `missing ${fromMs} ${sentence}`,
} as const;

/** Every place of the board by its name. */
export function stopsOf({ rows, days, missing, rainSentence }: BoardPicture): ReadonlyMap<string, Stop> {
  const stops = new Map<string, Stop>();
  const tell = (id: string, sentence: string, hourMs: number | null = null) =>
    stops.set(id, { telling: { sentence, more: [] }, press: { kind: "tell" }, hourMs });
  tell(RAIN_STOP, rainSentence);
  for (const { key, sentence } of rainSpans(days)) tell(stopId.rain(key), `Rain, ${sentence}`);
  for (const { fromMs, sentence } of missing) tell(stopId.missing(fromMs, sentence), sentence, fromMs);
  for (const { optionId, route, offered, sentence, more, vessels, unfold } of rows) {
    const choose = (of: RouteKey | null, laterUtc: string | null = null): Press =>
      offered ? { kind: "choose", optionId, route: of, laterUtc } : { kind: "tell" };
    stops.set(stopId.row(optionId), { telling: { sentence, more }, press: choose(route), hourMs: null });
    for (const vessel of vessels)
      stops.set(stopId.vessel(optionId, vessel.key), {
        telling: { sentence: `${vessel.sentence}.`, more: vessel.more },
        press: choose(vessel.route, vessel.laterUtc),
        hourMs: vessel.startMs,
      });
    if (unfold)
      stops.set(stopId.unfold(unfold.dayKey), {
        telling: { sentence: `${unfold.label}.`, more: [] },
        press: { kind: "unfold", dayKey: unfold.dayKey, expanded: unfold.expanded },
        hourMs: null,
      });
  }
  return stops;
}

/** What is done with the place that an event belongs to. */
export interface Heard {
  /** Says it in words below the board; null = says what is chosen again. */
  readonly onTell: (telling: Telling | null) => void;
  /** The hour that is looked at; null = none any more. */
  readonly onHour: (ms: number | null) => void;
  readonly onPress: (press: Press) => void;
}

/**
 * One set of listeners for all places of the board: hover and focus tell alike, a press acts. Hundreds of listeners would be
 * a tenth of the time to the first board.
 *
 * @param stops asked for with the first event, and not before
 */
export function listening(stops: () => ReadonlyMap<string, Stop>, { onTell, onHour, onPress }: Heard) {
  const at = ({ target }: Event): Stop | undefined => {
    const place = target instanceof Element ? target.closest<HTMLElement>("[data-at]") : null;
    return stops().get(place?.dataset.at ?? "");
  };
  return {
    onMouseOver: (event: Event) => onTell(at(event)?.telling ?? null),
    onMouseOut: () => onTell(null),
    onFocusIn: (event: Event) => {
      const stop = at(event);
      onTell(stop?.telling ?? null);
      if (stop) onHour(stop.hourMs);
    },
    onFocusOut: () => onTell(null),
    onClick: (event: Event) => {
      const stop = at(event);
      if (stop?.press.kind === "tell") onTell(stop.telling);
      else if (stop) onPress(stop.press);
    },
  };
}
