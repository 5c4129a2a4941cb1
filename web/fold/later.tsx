import type { ComponentType, FunctionComponent, VNode } from "preact";
import { useEffect, useState } from "preact/hooks";

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
    const [failed, setFailed] = useState(false);
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
            .catch(() => setFailed(true));
        }),
      );
      return () => {
        gone = true;
        cancelAnimationFrame(frame);
      };
    }, []);
    if (Part !== null) return <Part {...props} />;
    return failed ? (
      <p role="alert">This part of the page could not be fetched. Load the page again.</p>
    ) : (
      meanwhile
    );
  };
}
