import type { MendedCell } from "../../model/weather/mended-cells.ts";
import type { WeatherFile, WeatherFilePlace } from "../../model/weather/station/index.ts";
import type { FileQuestion, FileTell } from "./file-worker.ts";

/**
 * What the model makes of a file, worked out in a worker of the page.
 *
 * @param onProgress told a share of the work, 0 to 1, now and then
 * @param mends cells that the file's owner corrected
 * @returns the report, or in words why the file could not be read
 */
export async function checkFile(
  file: File,
  place: WeatherFilePlace,
  onProgress: (share: number) => void,
  mends: readonly MendedCell[] = [],
): Promise<{ readonly report: WeatherFile } | { readonly error: string }> {
  let bytes: ArrayBuffer;
  try {
    bytes = await file.arrayBuffer();
  } catch {
    return { error: "The file could not be read: was it moved or changed? Pick it again." };
  }
  const worker = new Worker(new URL("./file-worker.ts", import.meta.url), { type: "module" });
  try {
    return await new Promise((resolve) => {
      worker.onmessage = ({ data }: MessageEvent<FileTell>) => {
        if (data.kind === "progress") onProgress(data.share);
        else resolve({ report: data.report });
      };
      worker.onerror = (event) => {
        resolve({
          error: `The file could not be read: ${event.message || "the reader stopped"}. Nothing is lost; try again.`,
        });
      };
      const question: FileQuestion = { bytes, place, mends };
      worker.postMessage(question, [bytes]);
    });
  } finally {
    worker.terminate();
  }
}
