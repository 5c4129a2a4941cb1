import { useEffect, useState } from "preact/hooks";

/** The value once it has rested: what is costly to draw follows when the levers are let go, and at once for print. */
export function useRested<T>(value: T, restMs: number): T {
  const [rested, setRested] = useState(value);
  useEffect(() => {
    const settle = () => setRested(() => value);
    const timer = setTimeout(settle, restMs);
    addEventListener("beforeprint", settle);
    return () => {
      clearTimeout(timer);
      removeEventListener("beforeprint", settle);
    };
  }, [value, restMs]);
  return rested;
}
