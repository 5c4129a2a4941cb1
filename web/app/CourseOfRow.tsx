import { ROUTE_CATALOGUE } from "../../model/harvest/index.ts";
import type { Scale } from "../board/calendar.ts";
import { CourseView } from "../course/CourseView.tsx";
import type { Manner } from "../format/manner.ts";
import type { Choice } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";
import { routeBands } from "../worker/compute.ts";

/** The course of the chosen row, or in words why it has none. */
export function CourseOfRow({
  picture,
  choice,
  calendar,
  manner,
}: {
  readonly picture: Picture;
  readonly choice: Choice | null;
  readonly calendar: Scale | null;
  readonly manner: Manner;
}) {
  if (choice === null)
    return <p class="no-course">There is no cut to offer in this weather, so there is no course to show.</p>;
  const { option, route } = choice;
  const { request, course, source } = picture;
  if (option.kind === "standing") {
    return (
      <section class="no-course">
        <h2>Taken standing</h2>
        <p>Nothing lies in a swath, so there is no course to show.</p>
        <ul>
          {(route?.why ?? []).map(({ text }) => (
            <li key={text}>{text}</li>
          ))}
        </ul>
      </section>
    );
  }
  const shown = course?.optionId === option.id ? course.course : null;
  if (!shown) return <p class="no-course">The course of this cut is being worked out ...</p>;
  return (
    <CourseView
      course={shown}
      option={option}
      route={route}
      routes={routeBands(request)
        .filter(({ route: key }) => ROUTE_CATALOGUE[key].kind === "swath")
        .map(({ route: key, bandWb }) => ({ route: key, label: ROUTE_CATALOGUE[key].label, bandWb }))}
      manner={manner}
      series={source.series}
      initialMoistureWb={request.swath.initialMoistureWb}
      calendar={calendar}
    />
  );
}
