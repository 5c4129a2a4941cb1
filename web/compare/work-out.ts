import { startWorker } from "../app/asker.ts";
import type { Manner } from "../format/manner.ts";
import type { Kept } from "../state/state.ts";
import type { Ask, Tell } from "../worker/messages.ts";
import { type Preset, presetCut, presetQuestion } from "./presets.ts";

/** A preset's cut from a worker of its own, so that the board's is not held up; null where there is no such cut. */
export async function workOut(cut: Kept, preset: Preset, manner: Manner): Promise<Kept | null> {
  const question = presetQuestion(cut, preset, manner);
  if (question === null) return null;
  const { asked: request, optionId, route } = question;
  const worker = startWorker();
  try {
    const tell = await new Promise<Tell>((resolve, reject) => {
      worker.onmessage = ({ data }: MessageEvent<Tell>) => resolve(data);
      worker.onerror = (event) => reject(new Error(event.message));
      const ask: Ask = { kind: "board", id: 1, request, selection: { optionId, route } };
      worker.postMessage(ask);
    });
    return tell.kind === "board" ? presetCut(cut, question, tell.answer, tell.course) : null;
  } catch {
    // A worker that cannot start leaves nothing to compare with, which the panel says.
    return null;
  } finally {
    worker.terminate();
  }
}
