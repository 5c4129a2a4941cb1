import { useRef, useState } from "preact/hooks";
import type { Dispatch } from "../app/use-model.ts";
import type { PlaceField, State, Upload } from "../state/state.ts";
import { checkFile, MAX_UPLOAD_BYTES, PLACE_LIMITS, readPlace, sizeError } from "../weather/upload.ts";
import { ErrorText, Group, rangeHint, SelectField, TextField } from "./Field.tsx";
import { Problems } from "./Problems.tsx";
import { Questions } from "./Questions.tsx";

/** The invented samples. While a file is shown, the list has an entry for it. */
export function SamplePicker({
  samples,
  source,
  dispatch,
}: Pick<State, "samples" | "source"> & { readonly dispatch: Dispatch }) {
  const own: readonly (readonly [string, string])[] =
    source?.kind === "upload" ? [["", `Your file: ${source.name}`]] : [];
  return (
    <SelectField
      label="Weather"
      value={source?.kind === "sample" ? source.id : ""}
      choices={[...own, ...samples.map(({ id, title }) => [id, `Invented: ${title.toLowerCase()}`] as const)]}
      onChoice={(id) => dispatch({ kind: "sample", id })}
    />
  );
}

async function send(file: File | null, upload: Upload, dispatch: Dispatch): Promise<void> {
  const { errors, query } = readPlace(upload.place, upload.answers);
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
export function UploadPanel({ upload, dispatch }: { readonly upload: Upload; readonly dispatch: Dispatch }) {
  const [file, setFile] = useState<File | null>(null);
  const form = useRef<HTMLFormElement>(null);
  const { errors, place, checking } = upload;
  const text = (field: PlaceField) => ({
    value: place[field],
    error: errors[field],
    onText: (typed: string) => dispatch({ kind: "place", field, text: typed }),
  });
  const numbers = (field: keyof typeof PLACE_LIMITS) => ({
    ...text(field),
    hint: rangeHint(PLACE_LIMITS[field]),
  });
  const submit = async (event: Event) => {
    event.preventDefault();
    await send(file, upload, dispatch);
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
          <TextField label="Latitude" {...numbers("latitude")} />
          <TextField label="Longitude" {...numbers("longitude")} />
        </div>
        <div class="pair">
          <TextField label="Elevation" {...numbers("elevationM")} />
          <TextField label="Wind measured at" {...numbers("windHeightM")} />
        </div>
        <TextField
          label="Time zone of the farm"
          numeric={false}
          hint="An IANA name, as America/Chicago"
          {...text("timeZone")}
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
