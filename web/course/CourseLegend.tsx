import { Vessel } from "../board/Vessel.tsx";
import {
  BEFORE_DASH,
  BEFORE_WIDTH_PX,
  KEPT_DASH,
  KEPT_WIDTH_PX,
  OPINION_DASHES,
  STEM_DASH,
} from "./course-chart.ts";
import type { CoursePicture } from "./course-picture.ts";

/** As the band's form stands in the picture. */
const BAND_BOX = { x0: 2, x1: 16, y0: 1, y1: 13 };

function LineKey({
  widthPx,
  dash,
  kind = "",
}: {
  readonly widthPx: number;
  readonly dash?: readonly number[] | undefined;
  readonly kind?: string;
}) {
  return (
    <svg width={34} height={12} aria-hidden="true">
      <path
        class={`key-line ${kind}`}
        d="M1 6H33"
        stroke-width={widthPx}
        stroke-dasharray={dash?.join(" ")}
      />
    </svg>
  );
}

/** What each mark of the picture stands for; only what is drawn is named. */
export function CourseLegend({
  picture,
  parts,
  bands = false,
}: {
  readonly picture: CoursePicture;
  readonly parts: boolean;
  /** The picture has no room for the bands' names. */
  readonly bands?: boolean;
}) {
  const { opinions, range, chances, before, kept, marks, windows } = picture;
  return (
    <ul class="course-legend" aria-label="Key to the course">
      {(bands ? picture.bands : []).map(({ route, label, range }) => (
        <li key={route}>
          <svg width={18} height={14} aria-hidden="true">
            <Vessel
              route={route}
              box={BAND_BOX}
              chance={1}
              rainedOn={false}
              labelled={false}
              heavy={false}
              doubled={false}
            />
          </svg>
          <strong>{label}</strong> {range}
        </li>
      ))}
      <li>
        <LineKey widthPx={2.8} />
        {chances.length > 0 ? "middle course" : "moisture of the swath"}
      </li>
      {before.length > 0 && (
        <li>
          <LineKey widthPx={BEFORE_WIDTH_PX} dash={BEFORE_DASH} kind="before" />
          middle before the reading
        </li>
      )}
      {marks.some(({ kind }) => kind === "reading") && (
        <li>
          <svg width={18} height={18} aria-hidden="true">
            <path class="key-reading" d="M5 2H13M9 2V16M5 16H13M9 4L14 9L9 14L4 9Z" />
          </svg>
          reading with its error
        </li>
      )}
      {kept && (
        <li>
          <LineKey widthPx={KEPT_WIDTH_PX} dash={KEPT_DASH} />
          {kept.label.charAt(0).toLowerCase()}
          {kept.label.slice(1)}
          {kept.points.length === 0 && ", outside these hours"}
        </li>
      )}
      {chances.length > 0 &&
        (["8 in 10 courses", "5 in 10 courses"] as const).map((name, i) => (
          <li key={name}>
            <svg width={22} height={12} aria-hidden="true">
              <rect class={`key-chance chance-${i}`} width={22} height={12} />
            </svg>
            {name}
          </li>
        ))}
      {range.length > 1 && (
        <li>
          <svg width={22} height={12} aria-hidden="true">
            <path class="key-range" d="M0 12L12 0M6 12L18 0M12 12L22 2M0 6L6 0M18 12L22 8" />
          </svg>
          earliest to latest estimate
        </li>
      )}
      {opinions.map(({ name }, i) => (
        <li key={name}>
          <LineKey widthPx={1.2} dash={OPINION_DASHES[i % OPINION_DASHES.length]} />
          {name}
        </li>
      ))}
      <li>
        <LineKey widthPx={0.9} kind="pale" />
        as dry as the air allows
      </li>
      <li>
        <svg width={10} height={14} aria-hidden="true">
          <path class="key-drop" d="M5 2C6.5 5 8 6.5 8 8.5A3 3 0 0 1 2 8.5C2 6.5 3.5 5 5 2Z" />
        </svg>
        dew
      </li>
      <li>
        <svg width={14} height={14} aria-hidden="true">
          <rect class="key-rain" x={1} y={0} width={5} height={12} />
          <rect class="key-rain" x={7} y={0} width={5} height={7} />
        </svg>
        rain, each hour
      </li>
      {parts &&
        (["leaf", "stem"] as const).map((part) => (
          <li key={part}>
            <LineKey widthPx={1.6} kind={part} dash={part === "stem" ? STEM_DASH : undefined} />
            {part}
          </li>
        ))}
      {windows.length > 0 && (
        <li>
          <svg width={20} height={14} aria-hidden="true">
            <rect class="key-window" x={1} y={6} width={18} height={4} />
          </svg>
          hours to work in
        </li>
      )}
    </ul>
  );
}
