import {
  Chart,
  type ChartArea,
  type ChartConfiguration,
  type ChartDataset,
  type ChartOptions,
  LinearScale,
  LineController,
  LineElement,
  type Plugin,
  PointElement,
} from "chart.js";
import { axesOf } from "./axes.ts";
import { AXIS_TITLE } from "./band-names.ts";
import type { CoursePicture, CoursePoint, CourseTick } from "./course-picture.ts";
import { drawGround } from "./draw-ground.ts";
import { drawMarks } from "./draw-marks.ts";
import type { Inks } from "./inks.ts";

Chart.register(LineController, LineElement, PointElement, LinearScale);

/** Dashes by which second opinions are told apart; the key under the chart repeats them. */
export const OPINION_DASHES: readonly (readonly number[])[] = [
  [1.5, 3],
  [9, 3, 2, 3],
  [6, 4],
];
/** The stem beside the leaf, which is drawn whole. */
export const STEM_DASH: readonly number[] = [14, 3];
/** The kept cut: long strokes, heavier than any second opinion. */
export const KEPT_DASH: readonly number[] = [10, 5];
export const KEPT_WIDTH_PX = 2.2;
/** The middle course before the readings: short blocks, as heavy as the course, so that no thin second opinion looks alike. */
export const BEFORE_DASH: readonly number[] = [6, 5];
export const BEFORE_WIDTH_PX = 3.2;

/** Axis title and numbers where no gutter is given, px. */
const AXIS_ROOM_PX = 52;

/** Standing crops hold up to 92 %. */
const TOP_PCT = 95;

const FONT = { family: '"Atkinson Hyperlegible Next Variable", system-ui, sans-serif', size: 13 };

/** Where the hours lie inside the canvas, px from its left edge; null = as the labels leave room. */
export interface PlotPlace {
  readonly x0: number;
  readonly x1: number;
  readonly widthPx: number;
}

/** Everything the chart shows at one time. */
export interface Scene {
  readonly picture: CoursePicture;
  readonly inks: Inks;
  readonly widthPx: number;
  readonly place: PlotPlace | null;
  /** Leaf and stem apart. */
  readonly parts: boolean;
}

/** Least room of a tick, px: "18" on a 24-hour clock, "noon" and "12 am" on a 12-hour one. */
const TICK_PX = 28;
const TICK_12H_PX = 38;
/** Least room of a tick without a label, px. */
const BARE_TICK_PX = 8;

/** Every six hours, every twelve, or midnights alone: as the room for a tick of this width allows. */
function ticksEvery({ picture, place, widthPx }: Scene, tickPx: number): readonly CourseTick[] {
  const acrossPx = place === null ? widthPx - AXIS_ROOM_PX : place.x1 - place.x0;
  const fit = ((acrossPx / picture.hoursAcross) * 24) / tickPx;
  const everyH = fit >= 4 ? 6 : fit >= 2 ? 12 : 24;
  return picture.ticks.filter(({ hour }) => hour % everyH === 0);
}

/** The hours that are named. */
function ticksNamed(scene: Scene): readonly CourseTick[] {
  return ticksEvery(scene, scene.picture.ticks.some(({ label }) => label.length > 2) ? TICK_12H_PX : TICK_PX);
}

function datasetsOf({ picture, inks, parts }: Scene): ChartDataset<"line">[] {
  const line = (
    label: string,
    points: readonly CoursePoint[],
    borderColor: string,
    borderWidth: number,
    order: number,
    dash: readonly number[] = [],
  ): ChartDataset<"line"> => ({
    label,
    data: points.map(({ x, y }) => ({ x, y })),
    borderColor,
    borderWidth,
    borderDash: [...dash],
    order,
    pointRadius: 0,
    pointHitRadius: 0,
    fill: false,
  });
  return [
    line("tissue", picture.tissue, inks.ink, 2.8, 1),
    line("edge", picture.tissue, inks.day, 6, 2),
    line("air floor", picture.floor, inks.ink2, 0.8, 5),
    ...(picture.kept ? [line("kept", picture.kept.points, inks.ink, KEPT_WIDTH_PX, 3, KEPT_DASH)] : []),
    ...(picture.before.length > 0
      ? [line("before", picture.before, inks.ink2, BEFORE_WIDTH_PX, 3, BEFORE_DASH)]
      : []),
    ...(parts
      ? [
          line("leaf", picture.leaf, inks.leaf, 1.6, 4),
          line("stem", picture.stem, inks.stem, 1.6, 4, STEM_DASH),
        ]
      : []),
    ...picture.opinions.map(({ name, points }, i) =>
      line(name, points, inks.ink, 1.2, 4, OPINION_DASHES[i % OPINION_DASHES.length]),
    ),
  ];
}

function optionsOf(scene: Scene): ChartOptions<"line"> {
  const { picture, inks, place } = scene;
  const named = ticksNamed(scene);
  // Between the hours that are named more are marked.
  const marked = ticksEvery(scene, BARE_TICK_PX);
  return {
    animation: false,
    responsive: true,
    maintainAspectRatio: false,
    events: [],
    parsing: false,
    normalized: true,
    layout: { padding: { right: place === null ? 4 : Math.max(0, place.widthPx - place.x1), top: 2 } },
    scales: {
      x: {
        type: "linear",
        min: 0,
        max: picture.hoursAcross,
        border: { color: inks.ink },
        grid: { drawOnChartArea: false, color: inks.ink },
        afterBuildTicks: (axis) => {
          axis.ticks = marked.map(({ x }) => ({ value: x }));
        },
        ticks: {
          autoSkip: false,
          maxRotation: 0,
          color: inks.ink,
          font: FONT,
          callback: (value) => {
            const tick = named.find(({ x }) => x === value);
            if (!tick) return "";
            return tick.day === null ? tick.label : [tick.label, tick.day];
          },
        },
      },
      y: {
        type: "linear",
        min: 0,
        max: TOP_PCT,
        afterFit: (axis) => {
          if (place !== null) axis.width = place.x0;
        },
        border: { color: inks.ink },
        grid: { color: inks.hair, lineWidth: 0.7 },
        ticks: { stepSize: 20, includeBounds: false, color: inks.ink, font: FONT },
        // In a gutter with the bands' names it is written over them, upright.
        title: { display: place === null, text: AXIS_TITLE.join(" "), color: inks.ink, font: FONT },
      },
    },
  };
}

/** The chart on its canvas. It lives as long as the canvas: what it shows is changed in place. */
export interface CourseChart {
  show(scene: Scene): void;
  destroy(): void;
}

/** Puts a chart on a canvas; `onArea` tells where its hours and moistures lie, whenever that has been laid out. */
export function courseChart(
  canvas: HTMLCanvasElement,
  first: Scene,
  onArea: (area: ChartArea) => void,
): CourseChart {
  let scene = first;
  // Draws what Chart.js has no part for, always of the scene shown.
  const swath: Plugin<"line"> = {
    id: "swath",
    afterLayout: (chart) => onArea({ ...chart.chartArea }),
    beforeDatasetsDraw: (chart) => drawGround(chart.ctx, axesOf(chart), scene.picture, scene.inks),
    afterDatasetsDraw: (chart) => drawMarks(chart.ctx, axesOf(chart), scene.picture, scene.inks),
  };
  const config: ChartConfiguration<"line"> = {
    type: "line",
    data: { datasets: datasetsOf(first) },
    options: optionsOf(first),
    plugins: [swath],
  };
  const chart = new Chart(canvas, config);
  return {
    show: (next) => {
      // The chart's own observer would tell of another width only after it has been printed.
      if (next.widthPx !== scene.widthPx || canvas.parentElement?.clientHeight !== chart.height)
        chart.resize();
      scene = next;
      const shown = chart.data.datasets;
      chart.data.datasets = datasetsOf(next).map((dataset) => {
        const same = shown.find(({ label }) => label === dataset.label);
        return same ? Object.assign(same, dataset) : dataset;
      });
      chart.options = optionsOf(next);
      chart.update("none");
    },
    destroy: () => chart.destroy(),
  };
}
