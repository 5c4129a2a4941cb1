import type { ComponentType, FunctionComponent } from "preact";
import { Fold } from "./Fold.tsx";
import { later } from "./later.tsx";

export interface LazyFold<P> {
  readonly class: string;
  readonly summary: string;
  /** `() => import("./Part.tsx").then((module) => module.Part)`: its style sheet comes along. */
  readonly load: () => Promise<ComponentType<P>>;
}

/**
 * A folded section of the page whose script and style are fetched when it is opened first, and never by a reader who
 * leaves it shut. What it is given is given on to the part inside.
 */
export function lazyFold<P extends object>({
  class: name,
  summary,
  load,
}: LazyFold<P>): FunctionComponent<P> {
  const Part = later(load, <p class="no-course">This section is being fetched ...</p>);
  return function OfFold(props: P) {
    return (
      <Fold class={name} summary={summary}>
        {() => <Part {...props} />}
      </Fold>
    );
  };
}
