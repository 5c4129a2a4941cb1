import type { SweepCourse } from "../drying/course.ts";
import type { Span } from "./problem.ts";
import type { CrewFieldRequest } from "./request.ts";
import { hourAt, isTakenDry, isTakenTooDry } from "./taken-dry.ts";
import { routeBand } from "./windows/band.ts";
import type { MemberSwath } from "./windows/member-swath.ts";

/** What one member says of a gathering. */
export interface Verdict {
  /** As the replay has it, dry enough and free of dew and rain; and on ground that carries. */
  readonly isFit: boolean;
  /** Below the band at one end. */
  readonly isTooDry: boolean;
}

/** What one member says of a gathering of crop that took this course, by its hours. */
export function verdictOf(
  field: CrewFieldRequest,
  member: MemberSwath,
  course: SweepCourse,
): (span: Span) => Verdict {
  const [lowestWb, topWb] = routeBand(field);
  const { soilFit } = member.track(course);
  return (span) => {
    const [first, last] = [hourAt(course, span.fromUtcMs), hourAt(course, span.toUtcMs)];
    const carries = !soilFit.subarray(first + 1, last + 1).includes(0);
    return {
      isFit: carries && isTakenDry(member, course, span, topWb),
      isTooDry: isTakenTooDry(course, span, lowestWb),
    };
  };
}
