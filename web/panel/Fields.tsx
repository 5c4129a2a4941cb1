import type { Speech } from "../state/field-reader.ts";
import type { Upload } from "../state/state.ts";
import { FieldPanel } from "./FieldPanel.tsx";
import type { PanelProps } from "./panel-props.ts";
import { UploadPanel } from "./WeatherPanel.tsx";

export interface FieldsProps extends PanelProps {
  readonly upload: Upload;
  readonly speech: Speech;
}

/** Everything that is typed, side by side: the field with its machines and routes, and the farm's own weather. */
export function Fields({ upload, speech, ...panel }: FieldsProps) {
  return (
    <div class="columns">
      <FieldPanel {...panel} />
      <div id="own">
        <UploadPanel upload={upload} dispatch={panel.dispatch} speech={speech} />
      </div>
    </div>
  );
}
