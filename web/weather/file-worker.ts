import { type MendedCell, withMendedCells } from "../../model/weather/mended-cells.ts";
import {
  fileText,
  readWeatherFile,
  type WeatherFile,
  type WeatherFilePlace,
} from "../../model/weather/station/index.ts";

/** Reads a file of weather beside the page, which goes on answering meanwhile; the file never leaves the device. */

export interface FileQuestion {
  readonly bytes: ArrayBuffer;
  readonly place: WeatherFilePlace;
  /** Cells that the file's owner corrected. */
  readonly mends?: readonly MendedCell[];
}

export type FileTell =
  | { readonly kind: "progress"; readonly share: number }
  | { readonly kind: "report"; readonly report: WeatherFile };

addEventListener("message", ({ data }: MessageEvent<FileQuestion>) => {
  const tell = (message: FileTell) => postMessage(message);
  const { text, encoding } = fileText(data.bytes);
  const report = readWeatherFile(
    withMendedCells(text, data.mends ?? []),
    { ...data.place, encoding },
    (share) => tell({ kind: "progress", share }),
  );
  tell({ kind: "report", report });
});
