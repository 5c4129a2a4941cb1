import { useEffect } from "preact/hooks";
import type { Dispatch } from "../app/use-model.ts";

const MINUTE_MS = 60_000;

/** The page's clock: once a minute, and at once when the page is looked at again. */
export function useNow(dispatch: Dispatch): void {
  useEffect(() => {
    const tick = () => {
      if (document.visibilityState === "visible") dispatch({ kind: "now", nowMs: Date.now() });
    };
    const timer = setInterval(tick, MINUTE_MS);
    document.addEventListener("visibilitychange", tick);
    return () => {
      clearInterval(timer);
      document.removeEventListener("visibilitychange", tick);
    };
  }, []);
}
