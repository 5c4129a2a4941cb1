import type { WeatherSeries } from "../../model/weather/index.ts";
import type { Manner } from "../format/manner.ts";
import { offlineChip, type PageState } from "../states/state-chips.ts";

/** Says that there is no network, and how old the weather is that everything stands on. */
export function OfflineChip({
  state,
  series,
  manner,
}: {
  readonly state: PageState;
  readonly series: WeatherSeries | null;
  readonly manner: Pick<Manner, "locale">;
}) {
  const chip = offlineChip(state, series, manner);
  return (
    <p class={chip ? "chip warn" : "hidden"} role="status">
      {chip?.text ?? ""}
    </p>
  );
}
