import { findWindows, HARVEST_DEFAULTS } from "../../model/harvest/index.ts";
import { HOUR_MS, localParts } from "../../model/weather/clock.ts";
import { utcMs } from "../format/farm-time.ts";
import { bestRoute, type Choice } from "../state/choice.ts";
import type { Inputs } from "../state/inputs.ts";
import { readInputs } from "../state/read-inputs.ts";
import type { Kept, Picture } from "../state/state.ts";
import { typedValue } from "../state/typed.ts";
import { courseOf } from "../worker/compute.ts";

/** Cuts that are often asked about, to be compared with in one tap. */
export const PRESETS = ["windrow", "unconditioned", "no-tedding", "later"] as const;
export type Preset = (typeof PRESETS)[number];

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
    if (preset === "windrow") return swath.coveredFraction > HARVEST_DEFAULTS.windrowCover.value;
    if (preset === "unconditioned") return swath.conditioning !== "none";
    if (preset === "no-tedding") return passes.some(({ kind }) => kind === "ted");
    return option.cutUtc !== null;
  });
}

function changedInputs(inputs: Inputs, preset: Preset): Inputs {
  if (preset === "unconditioned") return { ...inputs, conditioning: "none" };
  if (preset === "no-tedding") return { ...inputs, ted: "none" };
  if (preset === "later") return inputs;
  const cutM = typedValue("mowerCutM", inputs.texts.mowerCutM);
  const widthM = (cutM ?? 0) * HARVEST_DEFAULTS.windrowCover.value;
  const text = String(Number(widthM.toFixed(3)));
  return { ...inputs, texts: { ...inputs.texts, swathWidthM: { text, units: "metric" } } };
}

/** The cut that a preset stands for, worked out at once: one cut hour's rows and one course. Null where it cannot lie. */
export function presetCut(cut: Kept, preset: Preset): Kept | null {
  const { source, option } = cut;
  if (option.cutUtc === null) return null;
  const inputs = changedInputs(cut.inputs, preset);
  const { question } = readInputs(inputs);
  if (question === null) return null;
  const cutMs = utcMs(option.cutUtc) + (preset === "later" ? LATER_H * HOUR_MS : 0);
  const { hour } = localParts(cutMs, source.series.site.timeZone);
  const request = { ...question, weather: source.series };
  const outcome = findWindows({ ...request, cutHours: [hour] });
  if (!outcome.ok) return null;
  const other = outcome.value.options.find(({ cutUtc }) => cutUtc !== null && utcMs(cutUtc) === cutMs);
  if (!other) return null;
  const route = other.routes.find((each) => each.route === cut.route) ?? bestRoute(other);
  const course = courseOf(request, { option: other, route });
  if (!course?.ok) return null;
  return { source, inputs, request, option: other, route: route?.route ?? null, course: course.value };
}
