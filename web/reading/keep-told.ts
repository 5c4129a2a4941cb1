import type { Picture } from "../state/state.ts";
import { routeBands } from "../worker/route-bands.ts";
import { keepMet, metKey, metOf } from "./met.ts";
import { keepLearned, learnedKey, type Reading, readingsOf, weatherKey } from "./readings.ts";

/** Keeps what an answer made of the readings: the rate they taught, and what the forecast had said of their hours. */
export function keepTold(picture: Picture, readings: readonly Reading[]): void {
  const { course, inputs, source } = picture;
  const told = course?.course.odds?.readings;
  if (!course || !told) return;
  // The board knows what all readings of the field taught together.
  const learned = picture.answer.readings?.learned ?? told.learned;
  const field = learnedKey(inputs.fieldName, inputs.crop);
  if (learned !== null) keepLearned(field, learned);
  if (learned !== null && source.kind !== "sample") {
    const weather = weatherKey(source);
    const taken = readings.filter((one) => one.field === field && one.weather === weather);
    void import("../book/part.ts")
      .then(({ keepLearnedRate }) => keepLearnedRate(inputs, learned, taken))
      .catch(() => {});
  }
  if (source.kind !== "forecast") return;
  const bands = routeBands(picture.request);
  for (const reading of readingsOf(readings, picture, course.optionId)) {
    const { request } = reading;
    const issued = told.asIssued.find(({ atUtc }) => atUtc === request.atUtc);
    const met = issued && metOf(issued, request, source.series.issuedUtc, course.route, bands);
    if (met) keepMet({ ...met, of: metKey(reading) });
  }
}
