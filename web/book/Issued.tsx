import { useEffect } from "preact/hooks";
import { type Learned, type Reading, readingsHere } from "../reading/readings.ts";
import type { Choice } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";
import { isTold } from "./is-told.ts";

export interface IssuedProps {
  readonly readings: readonly Reading[];
  readonly dispatch: (action: { readonly kind: "learned"; readonly learned: Learned }) => void;
  readonly picture: Picture | null;
  readonly choice: Choice | null;
}

/** A lever on its way tells much that nobody reads: what stood for so long was told, ms. */
const SETTLED_MS = 1500;

/**
 * Shows nothing: once the odds of a real forecast are told, the book keeps it where its field is a kept one; and what
 * readings of other devices taught comes from the book into this one.
 */
export function Issued({ picture, choice, readings, dispatch }: IssuedProps) {
  const told = picture !== null && choice !== null && isTold(picture, choice);
  useEffect(() => {
    if (!told || picture === null || choice === null) return;
    // What cannot be fetched or kept now is kept with the next forecast: the page goes on.
    const keep = () =>
      void import("./part.ts")
        .then(({ keepIssued }) => keepIssued(picture, choice, Date.now()))
        .catch(() => {});
    const timer = setTimeout(keep, SETTLED_MS);
    return () => clearTimeout(timer);
  }, [told, picture?.id, choice?.option.id, choice?.route?.route]);
  const real = picture !== null && picture.source.kind !== "sample";
  useEffect(() => {
    if (!real || picture === null) return;
    void import("./part.ts")
      .then(({ learnedOfBook }) => learnedOfBook(readingsHere(readings, picture)))
      .then((learned) => learned && dispatch({ kind: "learned", learned }))
      .catch(() => {});
  }, [real]);
  return null;
}
