import type { TargetedPointerEvent } from "preact";
import { useEffect, useRef } from "preact/hooks";
import type { CrewJobAnswer } from "../../model/crew/index.ts";
import { SCROLLS } from "../board/BoardTable.tsx";
import { spanText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { ChartNames } from "./ChartNames.tsx";
import { ChartRain } from "./ChartRain.tsx";
import { type CrewChart as Chart, type CrewBlock, type CrewRow, OP_LABELS } from "./crew-chart.ts";
import type { Hands } from "./held-works.ts";
import { isBegun, jobKey } from "./job-key.ts";
import { PeopleBars } from "./PeopleBars.tsx";
import "./crew-chart.css";

export interface CrewChartProps {
  readonly chart: Chart;
  readonly manner: Manner;
  readonly sentence: string;
  readonly names: { readonly fields: Readonly<Record<string, string>> };
  readonly chosen: string | null;
  readonly wrong: ReadonlySet<string>;
  readonly held: ReadonlySet<string>;
  /** Work of before this is done or under way, and stays. */
  readonly nowUtc: string;
  /** Under the field's name: when it is home, and its chance. */
  readonly home: (fieldId: string) => string;
  readonly onChoose: (key: string) => void;
  /** Moves a work by so many milliseconds from where it stands. */
  readonly onMove: (job: CrewJobAnswer, byMs: number) => void;
  /** Gives a work to another machine, that may be of another kind: then nothing changes. */
  readonly onHand: (job: CrewJobAnswer, hands: Hands) => void;
  readonly slotMs: number;
}

/** So far outside of the chosen work's block its ring is drawn. */
const RING_PX = 3;

/** As much of the calendar is in sight before the first work. */
const BEFORE_FIRST_PX = 40;

/** The moment at a place across: nights are narrow there, so it is looked for. */
function momentAt(chart: Chart, x: number): number {
  let [lo, hi] = [chart.scale.fromMs, chart.scale.toMs];
  while (hi - lo > 60_000) {
    const middle = (lo + hi) / 2;
    if (chart.scale.x(middle) < x) lo = middle;
    else hi = middle;
  }
  return lo;
}

function rowAt(rows: readonly CrewRow[], y: number): CrewRow | undefined {
  return rows.find((row) => y >= row.y && y < row.y + row.heightPx);
}

function Block({ block, row, props }: { block: CrewBlock; row: CrewRow; props: CrewChartProps }) {
  const { job, x0, x1, label } = block;
  const { chart, manner, slotMs } = props;
  const key = jobKey(job);
  const from = useRef<{ readonly x: number; readonly job: CrewJobAnswer; moved: number } | null>(null);
  const name = props.names.fields[job.fieldId] ?? job.fieldId;
  const held = props.held.has(key);
  const wrong = props.wrong.has(key);
  const begun = isBegun(job, props.nowUtc);
  const against = held ? ", against weather, window or hours" : ", cannot be done there";
  const state = `${begun ? ", begun" : held ? ", held" : ""}${wrong ? against : ""}`;
  const marginPx = block.lanes > 1 ? 2 : 7;
  const height = (row.heightPx - 2 * marginPx) / block.lanes;
  const y = row.y + marginPx + block.lane * height;
  const shiftTo = (clientX: number) => {
    const begun = from.current;
    if (begun === null) return;
    const wantedMs = momentAt(chart, chart.scale.x(begun.job.startUtc) + clientX - begun.x);
    const byMs = Math.round((wantedMs - Date.parse(begun.job.startUtc)) / slotMs) * slotMs;
    if (byMs === begun.moved) return;
    begun.moved = byMs;
    props.onMove(begun.job, byMs);
  };
  const end = () => {
    from.current = null;
  };
  /** A block of a machine's row that is let go over another's: it is given to that one, not before, as it would be redrawn there. */
  const letGo = ({ clientY, currentTarget }: TargetedPointerEvent<SVGGElement>) => {
    const top = currentTarget.ownerSVGElement?.getBoundingClientRect().top ?? 0;
    const over = rowAt(chart.machines, clientY - top);
    if (from.current !== null && over !== undefined && over !== row && chart.machines.includes(row))
      props.onHand(job, { machineId: over.id });
    end();
  };
  const names = [
    "crew-job",
    `op-${job.op}`,
    props.chosen === key ? "chosen" : "",
    wrong ? "wrong" : "",
    held ? "held" : "",
    begun ? "begun" : "",
    block.home ? "home" : "",
  ];
  const acting = {
    role: "button" as const,
    // As XML writes it: a drawing takes no other.
    tabindex: 0,
    "aria-pressed": props.chosen === key,
    "aria-label": `${OP_LABELS[job.op]} ${name}, ${spanText(job.startUtc, job.endUtc, manner)}${state}`,
    onClick: () => props.onChoose(key),
    onKeyDown: (event: KeyboardEvent) => {
      if (event.key === "Enter" || event.key === " ") props.onChoose(key);
      else if (event.key === "ArrowLeft" && !begun) props.onMove(job, -slotMs);
      else if (event.key === "ArrowRight" && !begun) props.onMove(job, slotMs);
      else return;
      event.preventDefault();
    },
    onPointerDown: (event: TargetedPointerEvent<SVGGElement>) => {
      props.onChoose(key);
      if (begun) return;
      from.current = { x: event.clientX, job, moved: 0 };
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove: (event: PointerEvent) => shiftTo(event.clientX),
    onPointerUp: letGo,
    onPointerCancel: end,
  };
  return (
    <g class={names.filter(Boolean).join(" ")} data-job={key} {...acting}>
      <path
        class="crew-hit"
        d={`M${block.hit.x0} ${row.y}H${block.hit.x1}V${row.y + row.heightPx}H${block.hit.x0}z`}
      />
      <rect x={x0} y={y} width={Math.max(4, x1 - x0)} height={height} rx={2} />
      {props.chosen === key ? (
        <rect
          class="crew-ring"
          x={x0 - RING_PX}
          y={y - RING_PX}
          width={Math.max(4, x1 - x0) + 2 * RING_PX}
          height={height + 2 * RING_PX}
          rx={4}
        />
      ) : null}
      {block.outside.map((part) => (
        <rect
          key={part.x0}
          class="crew-outside"
          x={part.x0}
          y={y + 1}
          width={part.x1 - part.x0}
          height={height - 2}
        />
      ))}
      <text x={(x0 + x1) / 2} y={y + height / 2 + 5} text-anchor="middle">
        {label}
      </text>
      {wrong ? (
        <path class="crew-caution" d={`M${x1 - 7} ${y - 6}l7 12h-14zm0 4.500v3.500m0 1.500v1`} />
      ) : null}
    </g>
  );
}

function Row({ row, props }: { row: CrewRow; props: CrewChartProps }) {
  const { widthPx } = props.chart;
  return (
    <g>
      {row.open.map(({ x0, x1 }) => (
        <rect key={x0} class="crew-open" x={x0} y={row.y + 2} width={x1 - x0} height={row.heightPx - 4} />
      ))}
      {row.window ? (
        <rect
          class="crew-window"
          x={row.window.x0}
          y={row.y + 3}
          width={Math.max(1, row.window.x1 - row.window.x0)}
          height={row.heightPx - 6}
        />
      ) : null}
      {row.left === null ? null : (
        <rect class="crew-left" x={0} y={row.y + 12} width={widthPx} height={row.heightPx - 24} />
      )}
      {row.left === null
        ? null
        : // Again in each day: wherever the calendar is scrolled to, it says why there is no work.
          props.chart.days.map(({ x0 }) => (
            <text key={x0} class="crew-why" x={x0 + 8} y={row.y + row.heightPx / 2 + 5}>
              {row.left}
            </text>
          ))}
      {row.away.map(({ x0, x1, label }) => (
        <g key={x0} class="crew-away">
          <rect x={x0} y={row.y + 4} width={x1 - x0} height={row.heightPx - 8} />
          {props.chart.days
            .filter((day) => day.x1 > x0 && day.x0 < x1)
            .map((day) => (
              <text
                key={day.x0}
                class="crew-why"
                x={Math.max(day.x0 + 2, x0) + 6}
                y={row.y + row.heightPx / 2 + 5}
              >
                {label}
              </text>
            ))}
        </g>
      ))}
      <line class="crew-rule" x1={0} x2={widthPx} y1={row.y + row.heightPx} y2={row.y + row.heightPx} />
      {row.blocks.map((block) => (
        <Block key={jobKey(block.job)} block={block} row={row} props={props} />
      ))}
    </g>
  );
}

/** Fields over machines; names stand still at the left while the calendar is scrolled. */
export function CrewChart(props: CrewChartProps) {
  const { chart, sentence, home, chosen } = props;
  const scroll = useRef<HTMLElement>(null);
  useEffect(() => {
    const view = scroll.current;
    const block = chart.fields.flatMap(({ blocks }) => blocks).find(({ job }) => jobKey(job) === chosen);
    if (view === null || block === undefined) return;
    const inSight = block.x0 >= view.scrollLeft && block.x1 <= view.scrollLeft + view.clientWidth;
    if (!inSight) view.scrollLeft = (block.x0 + block.x1 - view.clientWidth) / 2;
  }, [chosen]);
  // A plan is seen from its first work on, not from the empty days before it.
  useEffect(() => {
    const view = scroll.current;
    const blocks = chart.fields.flatMap((row) => row.blocks).filter(({ job }) => !isBegun(job, props.nowUtc));
    if (view === null || blocks.length === 0) return;
    view.scrollLeft = Math.max(0, Math.min(...blocks.map(({ x0 }) => x0)) - BEFORE_FIRST_PX);
  }, [props.nowUtc, chart.scale.fromMs, chart.scale.toMs, chart.widthPx]);
  return (
    <div class="crew-chart">
      <ChartNames chart={chart} home={home} />
      <section
        ref={scroll}
        class="crew-scroll"
        aria-label="Time chart by field, by machine and of the people"
        {...SCROLLS}
      >
        <svg width={chart.widthPx} height={chart.heightPx}>
          <title>{sentence}</title>
          <defs>
            <pattern id="crew-hatch" width="8" height="8" patternUnits="userSpaceOnUse">
              <path class="crew-hatch-line" d="M-2 10 10 -2M-2 2 2 -2M6 10 10 6" />
            </pattern>
            <pattern id="crew-stripe" width="6" height="6" patternUnits="userSpaceOnUse">
              <path
                class="crew-stripe-line"
                d="M-1.500 7.500 7.500 -1.500M-1.500 1.500 1.500 -1.500M4.500 7.500 7.500 4.500"
              />
            </pattern>
          </defs>
          <rect class="crew-day" x={0} y={0} width={chart.widthPx} height={chart.heightPx} />
          {chart.nights.map(({ x0, x1 }) => (
            <rect key={x0} class="crew-night" x={x0} y={22} width={x1 - x0} height={chart.heightPx - 22} />
          ))}
          {chart.days.map(({ x0, x1, label }) => (
            <g key={label}>
              <line class="crew-rule" x1={x0} x2={x0} y1={0} y2={chart.heightPx} />
              <text class="crew-day-name" x={(x0 + x1) / 2} y={16} text-anchor="middle">
                {label}
              </text>
            </g>
          ))}
          {chart.hours.map(({ x, label }) => (
            <g key={x}>
              <line class="crew-hour" x1={x} x2={x} y1={22} y2={chart.heightPx} />
              {label === null ? null : (
                <text class="crew-hour-name" x={x} y={37} text-anchor="middle">
                  {label}
                </text>
              )}
            </g>
          ))}
          <ChartRain rain={chart.rain} />
          <line class="crew-axis" x1={0} x2={chart.widthPx} y1={22} y2={22} />
          {chart.nowX === null ? null : (
            <g class="crew-now">
              <line x1={chart.nowX} x2={chart.nowX} y1={22} y2={chart.heightPx} />
            </g>
          )}
          {[...chart.fields, ...chart.machines].map((row) => (
            <Row key={`${row.y}`} row={row} props={props} />
          ))}
          <line
            class="crew-axis"
            x1={0}
            x2={chart.widthPx}
            y1={chart.machinesY + 28}
            y2={chart.machinesY + 28}
          />
          <line class="crew-axis" x1={0} x2={chart.widthPx} y1={chart.people.y - 2} y2={chart.people.y - 2} />
          <PeopleBars people={chart.people} />
        </svg>
      </section>
    </div>
  );
}
