import type { Dispatch } from "../app/use-model.ts";
import type { State } from "../state/state.ts";
import { SelectField } from "./Field.tsx";

/** The invented samples. While a file is shown, the list has an entry for it. */
export function SamplePicker({
  samples,
  source,
  dispatch,
}: Pick<State, "samples" | "source"> & { readonly dispatch: Dispatch }) {
  const own: readonly (readonly [string, string])[] =
    source?.kind === "upload" ? [["", `Your file: ${source.name}`]] : [];
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
