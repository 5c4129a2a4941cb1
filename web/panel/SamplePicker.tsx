import type { Dispatch } from "../app/use-model.ts";
import type { State } from "../state/state.ts";
import { providerLabel } from "../weather/forecast.ts";
import type { WeatherSource } from "../weather/source.ts";
import { SelectField } from "./Field.tsx";

function ownName(source: Exclude<WeatherSource, { kind: "sample" }>): string {
  if (source.kind === "upload") return `Your file: ${source.name}`;
  return `Forecast: ${providerLabel(source.series.provider)}`;
}

/** The invented samples. While a file is shown, the list has an entry for it. */
export function SamplePicker({
  samples,
  source,
  dispatch,
}: Pick<State, "samples" | "source"> & { readonly dispatch: Dispatch }) {
  const own: readonly (readonly [string, string])[] =
    source === null || source.kind === "sample" ? [] : [["", ownName(source)]];
  return (
    <div id="samples" class="sample-picker">
      <SelectField
        label="Weather"
        value={source?.kind === "sample" ? source.id : ""}
        choices={[
          ...own,
          ...samples.map(({ id, title }) => [id, `Invented: ${title.toLowerCase()}`] as const),
        ]}
        onChoice={(id) => dispatch({ kind: "sample", id })}
      />
    </div>
  );
}
