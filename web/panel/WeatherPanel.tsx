import { useEffect, useRef, useState } from "preact/hooks";
import { isKnownTimeZone } from "../../model/weather/index.ts";
import type { MendedCell } from "../../model/weather/mended-cells.ts";
import type { WeatherFile, WeatherFilePlace } from "../../model/weather/station/weather-file.ts";
import type { Dispatch } from "../app/use-model.ts";
import { hour12Of } from "../format/manner.ts";
import { useZoneOfPlace } from "../place/zone-of-place.ts";
import type { Speech } from "../state/field-reader.ts";
import type { Upload } from "../state/state.ts";
import { checkFile } from "../weather/check-file.ts";
import { rememberAnswers, rememberedAnswers } from "../weather/mappings.ts";
import { MAX_UPLOAD_BYTES, readPlace, sizeError } from "../weather/upload.ts";
import { ErrorText, Group, TextField } from "./Field.tsx";
import { PlaceNumberField } from "./PlaceNumberField.tsx";
import { Problems } from "./Problems.tsx";
import { Questions } from "./Questions.tsx";
import { impossibleRain, RainMends } from "./RainMends.tsx";
import { Understood } from "./Understood.tsx";

/** Reads a file before its place is known. Where it lies changes nothing of whether it can be read at all. */
const ANYWHERE: WeatherFilePlace = {
  site: { latitude: 0, longitude: 0, elevationM: 0, timeZone: "UTC" },
  windHeightM: 2,
};
const UNREADABLE: readonly string[] = ["empty-file", "no-time", "missing-column"];

/** Why a file gives no weather wherever it was measured; null where it may. */
async function faultOfFile(file: File): Promise<string | null> {
  const result = await checkFile(file, ANYWHERE, () => {});
  if ("error" in result) return result.error;
  const faults = result.report.problems.filter(({ code }) => UNREADABLE.includes(code));
  return faults.length === 0 ? null : `${file.name}: ${faults.map(({ message }) => message).join(". ")}.`;
}

async function send(
  file: File | null,
  upload: Upload,
  dispatch: Dispatch,
  speech: Speech,
  onProgress: (share: number) => void,
  mends: readonly MendedCell[],
): Promise<void> {
  const { errors, place } = readPlace(upload.place, upload.answers, speech);
  const fileError = file === null ? "No file is chosen; a CSV file is needed." : sizeError(file.size);
  if (file === null || place === null || fileError !== null) {
    dispatch({ kind: "place-errors", errors: fileError === null ? errors : { ...errors, file: fileError } });
    if (file === null || fileError !== null) return;
    const fault = await faultOfFile(file);
    if (fault !== null) dispatch({ kind: "file-error", error: fault });
    return;
  }
  dispatch({ kind: "checking", name: file.name });
  onProgress(0);
  const result = await checkFile(file, place, onProgress, mends);
  if ("error" in result) {
    dispatch({ kind: "place-errors", errors: { file: result.error } });
    return;
  }
  const { report } = result;
  dispatch({ kind: "checked", name: file.name, report });
  // What was said of the last file with this header holds for this one too, until something else is said.
  if (Object.keys(upload.answers).length > 0 || !isStations(report)) return;
  const answers = await rememberedAnswers(report.headerKey);
  if (answers !== null) dispatch({ kind: "answers", answers });
}

/** A station's file is told with the reasons for what was understood; one under the canonical names needs none. */
function isStations(report: WeatherFile): boolean {
  return report.understood.some(({ why }) => why !== undefined);
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
  const [share, setShare] = useState(0);
  const [mends, setMends] = useState<readonly MendedCell[]>([]);
  const mend = (cell: MendedCell) => {
    const next = [...mends.filter(({ row }) => row !== cell.row), cell];
    setMends(next);
    void send(file, upload, dispatch, speech, setShare, next);
  };
  const [zoneLeft, setZoneLeft] = useState(false);
  const wrongZone = () =>
    upload.place.timeZone.trim() === "" ? undefined : readPlace(upload.place, {}, speech).errors.timeZone;
  const form = useRef<HTMLFormElement>(null);
  const { errors, place, checking, report, pending } = upload;
  const numbers = { upload, dispatch, speech };
  const submit = async (event: Event) => {
    event.preventDefault();
    if (pending !== null && report !== null) {
      void rememberAnswers(report.headerKey, upload.answers);
      dispatch({ kind: "use-file" });
      return;
    }
    await send(file, upload, dispatch, speech, setShare, mends);
    requestAnimationFrame(() => form.current?.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus());
  };
  useZoneOfPlace(place, dispatch);
  const zone = isKnownTimeZone(place.timeZone.trim()) ? place.timeZone.trim() : "UTC";
  const clock = { zone, hour12: hour12Of(speech.locale ?? "en-GB") };
  const stations = report !== null && isStations(report);
  // A correction is seen at once: the file is read again under it.
  useEffect(() => {
    if (file !== null && report !== null) void send(file, upload, dispatch, speech, setShare, mends);
  }, [upload.answers]);
  return (
    <Group title="Your own weather">
      <form ref={form} class="upload" onSubmit={submit} noValidate>
        <p>
          The file that your weather station writes, an hour or less between its rows, or hours under the
          column names of{" "}
          <a href="api/template.csv" download>
            the template
          </a>
          ; at most {MAX_UPLOAD_BYTES / 1024 / 1024} MB. It is read on this device and sent nowhere.
        </p>
        <div class={errors.file ? "field wrong" : "field"}>
          <label for="weather-file">CSV file</label>
          <input
            id="weather-file"
            type="file"
            accept=".csv,.txt,.tsv,.dat,text/csv,text/plain"
            aria-invalid={errors.file ? "true" : undefined}
            aria-describedby={errors.file ? "weather-file-error" : undefined}
            onChange={(event) => {
              const picked = event.currentTarget.files?.[0] ?? null;
              setFile(picked);
              setMends([]);
              const tooLarge = picked && sizeError(picked.size);
              dispatch({ kind: "picked", errors: tooLarge ? { file: tooLarge } : {} });
              if (picked && !tooLarge)
                void send(picked, { ...upload, answers: {} }, dispatch, speech, setShare, []);
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
          hint="Found from latitude and longitude; near a border, or without them, type it: as America/Chicago"
          value={place.timeZone}
          error={errors.timeZone ?? (zoneLeft ? wrongZone() : undefined)}
          onLeave={() => setZoneLeft(true)}
          onText={(text) => {
            setZoneLeft(false);
            dispatch({ kind: "place", field: "timeZone", text });
          }}
        />
        {stations ? (
          <Understood
            report={report}
            answers={upload.answers}
            hour12={clock.hour12}
            speech={{ units: speech.units ?? "metric", locale: speech.locale ?? "en" }}
            onAnswer={(id, choice) => dispatch({ kind: "answer", id, choice })}
          />
        ) : null}
        <Questions
          hint="The file is read again with each answer."
          questions={upload.questions}
          answers={upload.answers}
          onAnswer={(id, choice) => dispatch({ kind: "answer", id, choice })}
        />
        <button type="submit" class="main" disabled={checking !== null}>
          {checking !== null ? "Checking ..." : pending === null ? "Read the file" : "Use this weather"}
        </button>
        <p aria-live="polite" class="progress">
          {checking === null
            ? pending === null
              ? ""
              : stations
                ? "Look at what was understood, then use this weather."
                : "The file is read, and not used yet."
            : `Reading ${checking}: ${Math.round(share * 100)} %`}
        </p>
        {upload.problemsOf === null ? null : (
          <Problems
            of={upload.problemsOf}
            problems={upload.problems}
            clock={clock}
            pending={pending !== null}
          />
        )}
        {file === null ? null : (
          <RainMends
            problems={impossibleRain(upload.problems, report)}
            locale={speech.locale}
            onMend={mend}
          />
        )}
      </form>
    </Group>
  );
}
