import { useLayoutEffect, useRef, useState } from "preact/hooks";

/**
 * The width of an element, px, kept up as it changes; 0 until it is known.
 *
 * @param likelyPx what it will most likely be: what is drawn to it need not be drawn again once it is known
 */
export function useWidth<T extends HTMLElement>(likelyPx: () => number = () => 0) {
  const ref = useRef<T>(null);
  const [widthPx, setWidthPx] = useState(likelyPx);
  // Before the first paint: what is drawn to a width is then drawn once.
  useLayoutEffect(() => {
    const element = ref.current;
    if (!element) return;
    const measure = () => setWidthPx(Math.round(element.getBoundingClientRect().width));
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(element);
    // The observer would tell of the paper's width only after it has been printed.
    addEventListener("beforeprint", measure);
    // Nor does it tell of the screen's again where the page was never laid out between the two.
    const after = () => requestAnimationFrame(measure);
    addEventListener("afterprint", after);
    return () => {
      observer.disconnect();
      removeEventListener("beforeprint", measure);
      removeEventListener("afterprint", after);
    };
  }, []);
  return { ref, widthPx };
}
