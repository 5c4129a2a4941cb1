import { useEffect, useState } from "preact/hooks";
import type { Dispatch } from "../app/use-model.ts";
import { type Calendar, dayDateText } from "../format/farm-time.ts";
import type { PlaceField } from "../place/place-texts.ts";
import { forgetFile, listFiles, loadFile, type SavedFile, saveFile } from "../weather/saved-files.ts";
import type { WeatherSource } from "../weather/source.ts";
import "./saved-files.css";

/** "10 days from Saturday 20 Jun 2015". */
function spanWords({ fromUtc, hours }: SavedFile, calendar: Calendar): string {
  const days = Math.max(1, Math.round(hours / 24));
  return `${days} ${days === 1 ? "day" : "days"} from ${dayDateText(fromUtc, calendar)}`;
}

/** The own files this device remembers: each can be shown again, or forgotten. Nothing before there is one. */
export function SavedFiles({
  source,
  zone,
  thisYear,
  dispatch,
}: {
  /** Weather that has given a board: a file among it is remembered. */
  readonly source: WeatherSource | null;
  readonly zone: string;
  /** Files of another year say theirs. */
  readonly thisYear: number;
  readonly dispatch: Dispatch;
}) {
  const [files, setFiles] = useState<readonly SavedFile[]>([]);
  const [said, setSaid] = useState("");
  useEffect(() => {
    void listFiles().then(setFiles);
  }, []);
  useEffect(() => {
    if (source?.kind === "upload") void saveFile(source).then(setFiles);
  }, [source]);
  const use = async (name: string) => {
    const file = await loadFile(name);
    if (file === null) {
      setSaid(`${name} is no longer whole on this device: pick it again.`);
      return;
    }
    const { site, windHeightM } = file.series;
    for (const [field, value] of Object.entries({ ...site, windHeightM }))
      dispatch({ kind: "place", field: field as PlaceField, text: String(value) });
    setSaid("");
    dispatch({ kind: "source", source: file });
  };
  const forget = async (name: string) => {
    setFiles(await forgetFile(name));
    setSaid(`${name} is forgotten by this device.`);
  };
  if (files.length === 0 && said === "") return null;
  return (
    <fieldset class="saved-files">
      <legend>Files used before, kept on this device</legend>
      <ul>
        {files.map((file) => (
          <li key={file.name}>
            <button
              type="button"
              class="aid"
              aria-pressed={source?.kind === "upload" && source.name === file.name}
              onClick={() => use(file.name)}
            >
              {file.name} <span class="spot">{spanWords(file, { zone, thisYear })}</span>
            </button>
            <button type="button" class="aid" onClick={() => forget(file.name)}>
              Forget<span class="hidden"> {file.name}</span>
            </button>
          </li>
        ))}
      </ul>
      <p role="status">{said}</p>
    </fieldset>
  );
}
