import type { Manner } from "../format/manner.ts";
import { useWidth } from "../format/use-width.ts";
import { dayWords, tempText } from "./heat.ts";
import { heatPicture } from "./heat-chart.ts";
import type { Probe } from "./kept.ts";
import { toldTicks } from "./strip.ts";
import "./heat.css";

const MOST_PX = 760;
const LINE_WORDS = {
  steady: "",
  watch: "heating",
  open: "open the stack",
  "fire-service": "fire service first",
  fire: "fire service only",
} as const;
/** Under this two lines of words would touch: the upper one is said by the table. */
const LEAST_LINE_PX = 15;

/** The probes by day, between the steps of the table. */
export function HeatChart({
  probes,
  sentence,
  manner,
}: {
  readonly probes: readonly Probe[];
  readonly sentence: string;
  readonly manner: Manner;
}) {
  const { ref, widthPx } = useWidth<HTMLElement>();
  const width = Math.min(MOST_PX, widthPx);
  const { heightPx, x0, x1, line, points, steps, ticks } = heatPicture(probes, width);
  const last = points.at(-1);
  let told = Number.POSITIVE_INFINITY;
  const lines = steps.map((step) => {
    const room = told - step.y >= LEAST_LINE_PX;
    if (room) told = step.y;
    return { ...step, room };
  });
  return (
    <figure class="handling-picture" ref={ref}>
      {width > 0 ? (
        <svg width={width} height={heightPx} role="img" aria-label={sentence}>
          <title>{sentence}</title>
          {lines.map(({ y, tempC, row, room }) => (
            <g key={row.fromF}>
              <path class={`heat-step heat-${row.level}`} d={`M${x0} ${y}H${x1}`} />
              {room ? (
                <>
                  <text class="handling-scale" x={x0 - 6} y={y + 4} text-anchor="end">
                    {tempText(tempC, manner)}
                  </text>
                  <text class="heat-words" x={x1} y={y - 3} text-anchor="end">
                    {LINE_WORDS[row.level]}
                  </text>
                </>
              ) : null}
            </g>
          ))}
          {toldTicks(ticks.map(({ x, day }) => ({ x, text: day === 0 ? "first day" : String(day) }))).map(
            ({ x, text, anchor }) => (
              <text key={text} class="handling-scale" x={x} y={heightPx - 5} text-anchor={anchor}>
                {text}
              </text>
            ),
          )}
          <path class="heat-line" d={line} />
          {points.map(({ x, y, probe }, i) => (
            <circle
              key={`${probe.day} ${probe.tempC} ${i}`}
              class={probe.day === last?.probe.day ? "heat-point last" : "heat-point"}
              cx={x}
              cy={y}
              r={probe.day === last?.probe.day ? 6 : 4}
            >
              <title>
                {dayWords(probe.day)}: {tempText(probe.tempC, manner)}
              </title>
            </circle>
          ))}
        </svg>
      ) : null}
    </figure>
  );
}
