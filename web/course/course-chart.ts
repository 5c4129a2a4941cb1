import {
  Chart,
  type ChartConfiguration,
  LinearScale,
  LineController,
  LineElement,
  type Plugin,
  PointElement,
} from "chart.js";
import { axesOf, drawGround, type Inks } from "./draw-ground.ts";
import { drawMarks } from "./draw-marks.ts";
import type { CoursePicture } from "./to-course.ts";

Chart.register(LineController, LineElement, PointElement, LinearScale);

/** Dashes by which second opinions are told apart; the key under the chart repeats them. */
export const OPINION_DASHES: readonly (readonly number[])[] = [
  [6, 4],
  [1.5, 3],
  [9, 3, 2, 3],
];

/** Green and straw, both dark enough on white; the key under the chart names them. */
export const PART_INKS = { leaf: "#4F7A2B", stem: "#7A5C12" } as const;

/** Standing crops hold up to 92 %. */
const TOP_PCT = 95;

const FONT = { family: '"Atkinson Hyperlegible Next Variable", system-ui, sans-serif', size: 12 };

function groundPlugin(picture: CoursePicture, inks: Inks): Plugin<"line"> {
  return {
    id: "swathGround",
    beforeDatasetsDraw: (chart) => drawGround(chart.ctx, axesOf(chart), picture, inks),
    afterDatasetsDraw: (chart) => drawMarks(chart.ctx, axesOf(chart), picture, inks),
  };
}

/** Where the hours lie inside the canvas, px from its left edge; null = as the labels leave room. */
export interface PlotPlace {
  readonly x0: number;
  readonly x1: number;
  readonly widthPx: number;
}

/** Closer midnights leave room for one tick in twelve hours only, px. */
const LEAST_DAY_PX = 120;

/** The chart's whole configuration; the plugin draws what Chart.js has no part for. */
export function courseConfig(
  picture: CoursePicture,
  inks: Inks,
  narrow: boolean,
  place: PlotPlace | null,
  parts: boolean,
): ChartConfiguration<"line"> {
  const dayPx = place === null ? LEAST_DAY_PX : ((place.x1 - place.x0) / picture.hoursAcross) * 24;
  const plain = { pointRadius: 0, pointHitRadius: 0, fill: false as const };
  const data = (points: CoursePicture["tissue"]) => points.map(({ x, y }) => ({ x, y }));
  // Narrow pictures keep every second mark of six hours.
  const sparse = narrow || dayPx < LEAST_DAY_PX;
  const ticks = picture.ticks.filter(({ label }) => !sparse || label === "12" || label === "00");
  return {
    type: "line",
    data: {
      datasets: [
        {
          ...plain,
          label: "tissue",
          data: data(picture.tissue),
          borderColor: inks.ink,
          borderWidth: 2.8,
          order: 1,
        },
        {
          ...plain,
          label: "edge",
          data: data(picture.tissue),
          borderColor: inks.day,
          borderWidth: 6,
          order: 2,
        },
        {
          ...plain,
          label: "air floor",
          data: data(picture.floor),
          borderColor: inks.ink2,
          borderWidth: 0.8,
          order: 4,
        },
        ...(parts
          ? ([
              ["leaf", picture.leaf],
              ["stem", picture.stem],
            ] as const)
          : []
        ).map(([label, points]) => ({
          ...plain,
          label,
          data: data(points),
          borderColor: PART_INKS[label],
          borderWidth: 1.6,
          order: 3,
        })),
        ...picture.opinions.map(({ name, points }, i) => ({
          ...plain,
          label: name,
          data: data(points),
          borderColor: inks.ink,
          borderWidth: 1.2,
          borderDash: [...(OPINION_DASHES[i % OPINION_DASHES.length] ?? [])],
          order: 3,
        })),
      ],
    },
    options: {
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
            axis.ticks = ticks.map(({ x }) => ({ value: x }));
          },
          ticks: {
            autoSkip: false,
            maxRotation: 0,
            color: inks.ink,
            font: FONT,
            callback: (value) => {
              const tick = ticks.find(({ x }) => x === value);
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
          title: { display: true, text: "Moisture, % wet basis", color: inks.ink, font: FONT },
        },
      },
    },
    plugins: [groundPlugin(picture, inks)],
  };
}

/** Puts the chart on a canvas; the caller destroys it. */
export function drawCourse(
  canvas: HTMLCanvasElement,
  picture: CoursePicture,
  inks: Inks,
  narrow: boolean,
  place: PlotPlace | null,
  parts: boolean,
): Chart<"line"> {
  return new Chart(canvas, courseConfig(picture, inks, narrow, place, parts));
}
