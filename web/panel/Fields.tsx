import type { Speech } from "../state/field-reader.ts";
import type { Upload } from "../state/state.ts";
import type { WeatherSource } from "../weather/source.ts";
import { FieldPanel } from "./FieldPanel.tsx";
import type { PanelProps } from "./panel-props.ts";
import { SavedFiles } from "./SavedFiles.tsx";
import { UploadPanel } from "./WeatherPanel.tsx";

export interface FieldsProps extends PanelProps {
  readonly upload: Upload;
  /** Weather that has given a board. */
  readonly source?: WeatherSource | null;
  readonly speech: Speech;
  /** The farm's year now. */
  readonly thisYear: number;
}

/** Everything that is typed, side by side: the field with its machines and routes, and the farm's own weather. */
export function Fields({ upload, source = null, speech, thisYear, ...panel }: FieldsProps) {
  return (
    <div class="columns">
      <FieldPanel {...panel} />
      <div id="own">
        <SavedFiles source={source} zone={panel.manner.zone} thisYear={thisYear} dispatch={panel.dispatch} />
        <UploadPanel upload={upload} dispatch={panel.dispatch} speech={speech} />
      </div>
    </div>
  );
}
