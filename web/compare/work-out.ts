import type { Tries } from "../app/use-model.ts";
import type { Manner } from "../format/manner.ts";
import type { Preset } from "../state/preset.ts";
import type { Kept } from "../state/state.ts";
import { presetCut, presetQuestion } from "./presets.ts";

/** A preset's cut; null where there is no such cut, or nothing came back, which the panel says. */
export async function workOut(cut: Kept, preset: Preset, manner: Manner, tries: Tries): Promise<Kept | null> {
  const question = presetQuestion(cut, preset, manner);
  if (question === null) return null;
  const { asked: request, optionId, route } = question;
  const [tried] = await tries([{ request, row: { optionId, route } }]);
  const kept = tried && presetCut(cut, question, tried.answer, tried.course);
  return kept ? { ...kept, against: { preset, inputs: cut.inputs, optionId: cut.option.id } } : null;
}
