import type { CropKey } from "../../model/drying/keys.ts";
import type { RouteKey } from "../../model/harvest/index.ts";
import { beforeCutting, type Caution, ROUTE_CAUTIONS, WHO_DECIDES } from "./cautions.ts";

function Box({ title, orders }: Caution) {
  return (
    <section class="caution">
      <h2>
        <svg class="triangle" viewBox="0 0 16 14" aria-hidden="true">
          <path d="M8 1 15 13H1z" />
          <path class="mark" d="M8 5v4M8 10.500v1.200" />
        </svg>
        {title}
      </h2>
      <ul>
        {orders.map((order) => (
          <li key={order}>{order}</li>
        ))}
      </ul>
    </section>
  );
}

/** Stands beside the answer and cannot be closed. */
export function Cautions({ crop, route }: { readonly crop: CropKey; readonly route: RouteKey | null }) {
  return (
    <aside class="cautions" aria-label="Cautions">
      <Box {...beforeCutting(crop)} />
      {route === null ? null : <Box {...ROUTE_CAUTIONS[route]} />}
      <p class="who">{WHO_DECIDES}</p>
    </aside>
  );
}
