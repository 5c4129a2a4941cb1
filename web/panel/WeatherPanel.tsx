import { useRef, useState } from "preact/hooks";
import type { Dispatch } from "../app/use-model.ts";
import type { Speech } from "../state/field-reader.ts";
import type { Upload } from "../state/state.ts";
import { checkFile, MAX_UPLOAD_BYTES, readPlace, sizeError } from "../weather/upload.ts";
import { ErrorText, Group, TextField } from "./Field.tsx";
import { PlaceNumberField } from "./PlaceNumberField.tsx";
import { Problems } from "./Problems.tsx";
import { Questions } from "./Questions.tsx";

async function send(file: File | null, upload: Upload, dispatch: Dispatch, speech: Speech): Promise<void> {
  const { errors, query } = readPlace(upload.place, upload.answers, speech);
  const fileError = file === null ? "No file is chosen; a CSV file is needed." : sizeError(file.size);
  if (file === null || query === null || fileError !== null) {
    dispatch({ kind: "place-errors", errors: fileError === null ? errors : { ...errors, file: fileError } });
    return;
  }
  dispatch({ kind: "checking", name: file.name });
  const result = await checkFile(file, query);
  if ("errors" in result) dispatch({ kind: "place-errors", errors: result.errors });
  else dispatch({ kind: "checked", name: file.name, ...result.checked });
}

/** Own observations or an own forecast as a file, with what the file does not say. */
export function UploadPanel({
  upload,
  dispatch,
  speech = {},
}: {
  readonly upload: Upload;
  readonly dispatch: Dispatch;
  /** Units and numbers of the page; metric without it. */
  readonly speech?: Speech;
}) {
  const [file, setFile] = useState<File | null>(null);
  const form = useRef<HTMLFormElement>(null);
  const { errors, place, checking } = upload;
  const numbers = { upload, dispatch, speech };
  const submit = async (event: Event) => {
    event.preventDefault();
    await send(file, upload, dispatch, speech);
    requestAnimationFrame(() => form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus());
  };
  return (
    <Group title="Your own weather">
      <form ref={form} class="upload" onSubmit={submit} noValidate>
        <p>
          Hourly observations or a forecast as CSV under the column names of{" "}
          <a href="api/template.csv" download>
            the template
          </a>
          , at most {MAX_UPLOAD_BYTES / 1024 / 1024} MB.
        </p>
        <div class={errors.file ? "field wrong" : "field"}>
          <label for="weather-file">CSV file</label>
          <input
            id="weather-file"
            type="file"
            accept=".csv,text/csv,text/plain"
            aria-invalid={errors.file ? "true" : undefined}
            aria-describedby={errors.file ? "weather-file-error" : undefined}
            onChange={(event) => {
              const picked = event.currentTarget.files?.[0] ?? null;
              setFile(picked);
              const tooLarge = picked && sizeError(picked.size);
              dispatch({ kind: "picked", errors: tooLarge ? { file: tooLarge } : {} });
            }}
          />
          {errors.file ? <ErrorText id="weather-file-error" text={errors.file} /> : null}
        </div>
        <div class="pair">
          <PlaceNumberField label="Latitude" field="latitude" {...numbers} />
          <PlaceNumberField label="Longitude" field="longitude" {...numbers} />
        </div>
        <div class="pair">
          <PlaceNumberField label="Elevation" field="elevationM" {...numbers} />
          <PlaceNumberField label="Wind measured at" field="windHeightM" {...numbers} />
        </div>
        <TextField
          label="Time zone of the farm"
          numeric={false}
          hint="An IANA name, as America/Chicago"
          value={place.timeZone}
          error={errors.timeZone}
          onText={(text) => dispatch({ kind: "place", field: "timeZone", text })}
        />
        <Questions
          questions={upload.questions}
          answers={upload.answers}
          onAnswer={(id, choice) => dispatch({ kind: "answer", id, choice })}
        />
        <button type="submit" class="main" disabled={checking !== null}>
          {checking === null ? "Use this weather" : "Checking ..."}
        </button>
        <p aria-live="polite" class="progress">
          {checking === null ? "" : `Checking ${checking}: reading every row and its limits.`}
        </p>
        {upload.problemsOf === null ? null : <Problems of={upload.problemsOf} problems={upload.problems} />}
      </form>
    </Group>
  );
}
