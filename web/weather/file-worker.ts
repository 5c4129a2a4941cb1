import {
  readWeatherFile,
  type WeatherFile,
  type WeatherFilePlace,
} from "../../model/weather/station/index.ts";

/** Reads a file of weather beside the page, which goes on answering meanwhile; the file never leaves the device. */

export interface FileQuestion {
  readonly bytes: ArrayBuffer;
  readonly place: WeatherFilePlace;
}

export type FileTell =
  | { readonly kind: "progress"; readonly share: number }
  | { readonly kind: "report"; readonly report: WeatherFile };

/** UTF-8, or what Windows wrote before it: a degree sign tells them apart. */
function textOf(bytes: ArrayBuffer): string {
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("windows-1252").decode(bytes);
  }
}

addEventListener("message", ({ data }: MessageEvent<FileQuestion>) => {
  const tell = (message: FileTell) => postMessage(message);
  const report = readWeatherFile(textOf(data.bytes), data.place, (share) =>
    tell({ kind: "progress", share }),
  );
  tell({ kind: "report", report });
});
