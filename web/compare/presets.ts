import type { RouteKey, WindowsAnswer, WindowsRequest } from "../../model/harvest/index.ts";
import { HOUR_MS, localParts } from "../../model/weather/clock.ts";
import { utcMs } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { isWindrow, WIDTH_PRESETS, withCover } from "../panel/widths.ts";
import type { Choice } from "../state/choice.ts";
import type { Inputs } from "../state/inputs.ts";
import { PRESETS, type Preset } from "../state/preset.ts";
import { readInputs } from "../state/read-inputs.ts";
import type { Kept, Picture } from "../state/state.ts";
import type { RowCourse } from "../worker/messages.ts";

export const PRESET_LABELS: Readonly<Record<Preset, string>> = {
  windrow: "against a windrow",
  unconditioned: "against unconditioned",
  "no-tedding": "against no tedding",
  later: "against cutting 4 h later",
};

const LATER_H = 4;

/** The chosen cut as it stands; null while its course is not there, or where nothing lies in a swath. */
export function cutOf({ source, inputs, request, course }: Picture, choice: Choice | null): Kept | null {
  if (choice === null || course === null || course.optionId !== choice.option.id) return null;
  const { option, route } = choice;
  return { source, inputs, request, option, route: route?.route ?? null, course: course.course };
}

/** The presets that would change something about a cut. */
export function presetsFor({ request, option, route }: Kept): Preset[] {
  const { swath } = request;
  const passes = option.routes.find(({ route: key }) => key === route)?.operations ?? [];
  return PRESETS.filter((preset) => {
    if (preset === "windrow") return !isWindrow(swath.coveredFraction);
    if (preset === "unconditioned") return swath.conditioning !== "none";
    if (preset === "no-tedding") return passes.some(({ kind }) => kind === "ted");
    return option.cutUtc !== null;
  });
}

function changedInputs(inputs: Inputs, preset: Preset, manner: Manner): Inputs | null {
  if (preset === "unconditioned") return { ...inputs, conditioning: "none" };
  if (preset === "no-tedding") return { ...inputs, ted: "none" };
  if (preset === "later") return inputs;
  const share = WIDTH_PRESETS.find(({ key }) => key === "windrow")?.share;
  return share === undefined ? null : withCover(inputs, share, manner);
}

/** What has to be worked out for a preset: one cut hour's rows, and of them the row of that cut. */
export interface PresetQuestion {
  readonly inputs: Inputs;
  readonly request: WindowsRequest;
  /** The same with its one cut hour alone. */
  readonly asked: WindowsRequest;
  readonly optionId: string;
  readonly route: RouteKey | null;
}

/** Null where the changed cut is no question: a width that cannot be laid, an hour outside the day. */
export function presetQuestion(cut: Kept, preset: Preset, manner: Manner): PresetQuestion | null {
  const { source, option, route } = cut;
  const inputs = changedInputs(cut.inputs, preset, manner);
  const question = inputs && readInputs(inputs).question;
  if (option.cutUtc === null || !inputs || !question) return null;
  const cutMs = utcMs(option.cutUtc) + (preset === "later" ? LATER_H * HOUR_MS : 0);
  const { hour } = localParts(cutMs, source.series.site.timeZone);
  const request = { ...question, weather: source.series };
  // A row is named by its cut and its treatment; without milliseconds, as the answer writes it.
  const cutUtc = new Date(cutMs).toISOString().replace(".000Z", "Z");
  const optionId = option.id.replace(option.cutUtc, cutUtc);
  return { inputs, request, asked: { ...request, cutHours: [hour] }, optionId, route };
}

/** The cut of a preset from what was worked out; null where that cut is not offered. */
export function presetCut(
  { source }: Kept,
  { inputs, request, optionId }: PresetQuestion,
  answer: WindowsAnswer,
  course: RowCourse | null,
): Kept | null {
  const option = answer.options.find(({ id }) => id === optionId);
  if (!option || course?.optionId !== optionId) return null;
  return { source, inputs, request, option, route: course.route, course: course.course };
}
