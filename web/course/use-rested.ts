import { useLayoutEffect, useState } from "preact/hooks";

/** The value once it has rested: what is costly to draw follows when the levers are let go, and at once for print. */
export function useRested<T>(value: T, restMs: number): T {
  const [rested, setRested] = useState(value);
  useLayoutEffect(() => {
    const settle = () => setRested(() => value);
    // What the paper's width changes has no time to rest: the sheet is laid out next.
    if (document.documentElement.classList.contains("on-paper")) {
      settle();
      return;
    }
    const timer = setTimeout(settle, restMs);
    addEventListener("beforeprint", settle);
    return () => {
      clearTimeout(timer);
      removeEventListener("beforeprint", settle);
    };
  }, [value, restMs]);
  return rested;
}
