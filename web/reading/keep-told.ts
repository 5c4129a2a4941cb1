import type { Picture } from "../state/state.ts";
import { routeBands } from "../worker/route-bands.ts";
import { issueOf, keepMet, metKey, metOf } from "./met.ts";
import {
  keepLearned,
  type Learned,
  type Reading,
  rateKey,
  readingsHere,
  readingsOf,
  readLearned,
} from "./readings.ts";
import { keepToldCourse, metToldCourses } from "./told-courses.ts";

/** Keeps what a forecast told; and what an answer made of the readings: the rate they taught, and what had been told of their hours. */
export function keepTold(
  picture: Picture,
  readings: readonly Reading[],
  onLearned: (learned: Learned) => void,
): void {
  const { course, inputs, source } = picture;
  const told = course?.course.odds?.readings;
  keepToldCourse(picture);
  if (!course || !told) return;
  // The board knows what all readings of the field taught together.
  const learned = picture.answer.readings?.learned ?? told.learned;
  if (learned !== null) {
    const key = rateKey(picture);
    const { rateLnMean, rateLnSd, atUtc } = learned;
    const known = readLearned()[key];
    if (known?.rateLnMean !== rateLnMean || known.rateLnSd !== rateLnSd || known.atUtc !== atUtc)
      onLearned(keepLearned(key, learned));
  }
  if (learned !== null && source.kind !== "sample") {
    const taken = readingsHere(readings, picture);
    void import("../book/part.ts")
      .then(({ keepLearnedRate }) => keepLearnedRate(inputs, learned, taken))
      .catch(() => {});
  }
  if (source.kind !== "forecast") return;
  const bands = routeBands(picture.request);
  for (const reading of readingsOf(readings, picture, course.optionId)) {
    const { request } = reading;
    const issued = told.asIssued.find(({ atUtc }) => atUtc === request.atUtc);
    const met = issued && metOf(issued, request, issueOf(source.series), course.route, bands);
    if (met) keepMet({ ...met, of: metKey(reading) });
    metToldCourses(picture, reading);
  }
}
