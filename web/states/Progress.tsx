import { useEffect, useState } from "preact/hooks";
import "./states.css";

/** Nobody waits who waits less than this. */
const LATE_MS = 300;

/** True once something has gone on for 300 ms, and false as soon as it is over. */
export function useLate(busy: boolean): boolean {
  const [late, setLate] = useState(false);
  useEffect(() => {
    setLate(false);
    if (!busy) return;
    const timer = setTimeout(() => setLate(true), LATE_MS);
    return () => clearTimeout(timer);
  }, [busy]);
  return busy && late;
}

export interface Done {
  readonly done: number;
  readonly total: number;
  /** What is counted: "cut times". */
  readonly what: string;
}

/** How far the model is. Nothing while nothing runs, or while it has run for less than 300 ms. */
export function Progress({ busy, done }: { readonly busy: boolean; readonly done: Done | null }) {
  const late = useLate(busy);
  if (!late) return null;
  const words = done ? `${done.done} of ${done.total} ${done.what} done` : "Working out the cut times";
  return (
    <div class="progress-bar">
      {done ? (
        <progress max={done.total} value={done.done} aria-label={words} />
      ) : (
        <progress aria-label={words} />
      )}
      <span aria-hidden="true">{words}</span>
    </div>
  );
}
