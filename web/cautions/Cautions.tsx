import type { CropKey } from "../../model/drying/keys.ts";
import type { RouteKey } from "../../model/harvest/index.ts";
import type { GateKey } from "../state/inputs.ts";
import { beforeCutting, type Caution, routeCaution, WHO_DECIDES } from "./cautions.ts";
import "./cautions.css";

/** The orders cannot be closed; tapping them opens the reasons. */
export function Box({ title, orders, reasons }: Caution) {
  return (
    <details class="caution">
      <summary>
        <h2>
          <svg class="triangle" viewBox="0 0 16 14" aria-hidden="true">
            <path d="M8 1 15 13H1z" />
            <path class="mark" d="M8 5v4M8 10.500v1.200" />
          </svg>
          {title}
        </h2>
        {orders.map((order) => (
          <span key={order} class="order">
            {order}{" "}
          </span>
        ))}
        <span class="why-cue">Why</span>
      </summary>
      {reasons.map(({ text, source }) => (
        <p key={text}>
          {text} <span class="source">({source})</span>
        </p>
      ))}
      <p>{WHO_DECIDES}</p>
    </details>
  );
}

/** Stands beside the answer and cannot be closed. */
export function Cautions({
  crop,
  route,
  settled,
}: {
  readonly crop: CropKey;
  readonly route: RouteKey | null;
  /** What is ticked at the gate before cutting. */
  readonly settled?: readonly GateKey[];
}) {
  return (
    <aside class="cautions" aria-label="Cautions">
      <Box {...beforeCutting(crop, settled)} />
      {route === null ? null : <Box key={route} {...routeCaution(route, crop)} />}
      <p class="who">{WHO_DECIDES}</p>
    </aside>
  );
}
