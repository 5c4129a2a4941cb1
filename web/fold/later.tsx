import type { ComponentType, FunctionComponent, VNode } from "preact";
import { useEffect, useState } from "preact/hooks";

/** Why a part is not there; loading the page again would help only where there is a network. */
function failedText(): string {
  return navigator.onLine
    ? "This part of the page could not be fetched. Load the page again."
    : "This part is not on this device yet: it needs a connection once, and comes by itself when there is one.";
}

/**
 * A part of the page whose script is fetched once the rest has been painted. Until then, and where it cannot be fetched,
 * something else stands in its place.
 */
export function later<P extends object>(
  load: () => Promise<ComponentType<P>>,
  meanwhile: VNode,
): FunctionComponent<P> {
  let known: ComponentType<P> | null = null;
  return function Later(props: P) {
    const [Part, setPart] = useState<ComponentType<P> | null>(() => known);
    const [failed, setFailed] = useState<string | null>(null);
    const [tries, setTries] = useState(0);
    useEffect(() => {
      if (failed === null) return;
      const again = () => setTries((before) => before + 1);
      addEventListener("online", again);
      return () => removeEventListener("online", again);
    }, [failed]);
    useEffect(() => {
      if (Part !== null) return;
      let gone = false;
      // Two frames on, what is there already has been painted.
      const frame = requestAnimationFrame(() =>
        requestAnimationFrame(() => {
          load()
            .then((part) => {
              known = part;
              if (!gone) setPart(() => part);
            })
            .catch(() => setFailed(failedText()));
        }),
      );
      return () => {
        gone = true;
        cancelAnimationFrame(frame);
      };
    }, [tries]);
    if (Part !== null) return <Part {...props} />;
    return failed === null ? meanwhile : <p role="alert">{failed}</p>;
  };
}
