import type { Picture } from "../state/state.ts";

function List({ title, lines }: { readonly title: string; readonly lines: readonly string[] }) {
  if (lines.length === 0) return null;
  return (
    <>
      <h3>{title}</h3>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}

/** Everything that was assumed, and everything that should be looked at, in the model's own words. */
export function HowWorked({ picture }: { readonly picture: Picture }) {
  const { answer, course, source } = picture;
  const both = (key: "assumptions" | "warnings") => [
    ...new Set([...answer[key], ...(course?.course[key] ?? [])]),
  ];
  const by = (source.series.attribution ?? []).map(({ text }) => text);
  return (
    <details class="how">
      <summary>How it is worked out</summary>
      <p>
        For each cut hour the drying of the swath is followed hour by hour: what the air can take up, what the
        sun brings, dew and rain on the swath. A window is a span in which the moisture is in the route's
        band, the swath carries no water, no rain falls, the ground carries machines, it is working time, and
        the whole field can be done. Rows are ranked by what they are expected to be worth. Chances come from
        the forecast&apos;s members, or from one forecast widened by its usual errors; until they are worked
        out no row shows one.
      </p>
      <List title="Look at this" lines={both("warnings")} />
      <List title="Assumed" lines={both("assumptions")} />
      <List
        title="Second opinions"
        lines={(course?.course.secondOpinions ?? []).map(({ source: of }) => of)}
      />
      <List title="Weather" lines={by} />
    </details>
  );
}
