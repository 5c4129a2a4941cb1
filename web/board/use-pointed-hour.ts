import type { RefObject } from "preact";
import { useEffect, useRef } from "preact/hooks";
import { HOUR_MS } from "../../model/weather/clock.ts";
import type { Scale } from "./calendar.ts";

/** The hour of the weather in which a place across lies, UTC ms; null beside the hours. */
export function hourAt(scale: Scale, x: number): number | null {
  if (x < scale.x0 || x > scale.x1) return null;
  const ms = ((x - scale.x0) / (scale.x1 - scale.x0)) * (scale.toMs - scale.fromMs);
  return scale.fromMs + Math.floor(ms / HOUR_MS) * HOUR_MS;
}

/** Tells the hour under the pointer, and null when a mouse leaves; what a finger touched stays told. */
export function usePointedHour(
  ref: RefObject<HTMLElement | null>,
  scale: Scale | null,
  onHour: (ms: number | null) => void,
): void {
  const now = useRef({ scale, onHour });
  now.current = { scale, onHour };
  useEffect(() => {
    const element = ref.current;
    if (!element) return;
    const point = (event: PointerEvent) => {
      const { scale: across, onHour: tell } = now.current;
      if (across) tell(hourAt(across, event.clientX - element.getBoundingClientRect().left));
    };
    const leave = (event: PointerEvent) => {
      if (event.pointerType === "mouse") now.current.onHour(null);
    };
    element.addEventListener("pointermove", point);
    element.addEventListener("pointerdown", point);
    element.addEventListener("pointerleave", leave);
    return () => {
      element.removeEventListener("pointermove", point);
      element.removeEventListener("pointerdown", point);
      element.removeEventListener("pointerleave", leave);
    };
  }, []);
}
