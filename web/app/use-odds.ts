import { useEffect } from "preact/hooks";
import { keepMade } from "../made/made-cuts.ts";
import { chancesAreTold } from "../offline/rest.ts";
import { keepReadings } from "../reading/readings.ts";
import { chosen } from "../state/choice.ts";
import type { State } from "../state/state.ts";
import type { Asker, Dispatch } from "./asker.ts";

/** Odds are asked for once a board has rested this long, ms: levers on the move are followed without them. */
const REST_MS = 250;

/**
 * The chosen row's course at once where it is not there yet; then, when the board has been painted and has rested, the odds
 * of the course and of the board. Odds may put another row first: its course is asked for like any other.
 */
export function useOdds(state: State, asker: Asker, dispatch: Dispatch): void {
  const { picture, selection, readings, made } = state;
  const id = picture?.id;
  const choice = picture && chosen(picture.answer, selection);
  const optionId = choice?.option.id;
  const route = choice?.route?.route ?? null;
  const shown = picture?.course;
  const ready = shown?.optionId === optionId && shown?.route === route;
  useEffect(() => {
    if (id === undefined || optionId === undefined || ready) return;
    asker.course(id, { optionId, route });
  }, [id, optionId, route]);
  useEffect(() => {
    if (id === undefined || optionId === undefined) return;
    const timer = setTimeout(() => asker.oddsCourse(id, { optionId, route }), REST_MS);
    return () => clearTimeout(timer);
  }, [id, optionId, route]);
  useEffect(() => {
    // A board that came with its odds needs no others.
    if (id === undefined || picture?.answer.odds !== undefined) return;
    const timer = setTimeout(() => asker.odds(id), REST_MS);
    return () => clearTimeout(timer);
  }, [id]);
  const hasOdds = picture?.answer.odds !== undefined;
  useEffect(() => {
    if (hasOdds) chancesAreTold();
  }, [hasOdds]);
  useEffect(() => keepReadings(readings), [readings]);
  useEffect(() => keepMade(made), [made]);
  // What a forecast told, and what readings taught, is kept as soon as it is known, whether a section is open or not.
  const odds = shown?.course.odds;
  const keeps = odds !== undefined && (odds.readings !== null || picture?.source.kind === "forecast");
  useEffect(() => {
    if (!picture || !keeps) return;
    const learn = (learned: State["learned"]) => dispatch({ kind: "learned", learned });
    import("../reading/keep-told.ts")
      .then(({ keepTold }) => keepTold(picture, readings, learn))
      .catch(() => {});
  }, [odds]);
}
