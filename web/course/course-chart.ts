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

const FONT = { family: '"Atkinson Hyperlegible Next Variable", system-ui, sans-serif', size: 12 };

function groundPlugin(picture: CoursePicture, inks: Inks): Plugin<"line"> {
  return {
    id: "swathGround",
    beforeDatasetsDraw: (chart) => drawGround(chart.ctx, axesOf(chart), picture, inks),
    afterDatasetsDraw: (chart) => drawMarks(chart.ctx, axesOf(chart), picture, inks),
  };
}

/** The chart's whole configuration; the plugin draws what Chart.js has no part for. */
export function courseConfig(
  picture: CoursePicture,
  inks: Inks,
  narrow: boolean,
): ChartConfiguration<"line"> {
  const plain = { pointRadius: 0, pointHitRadius: 0, fill: false as const };
  const data = (points: CoursePicture["tissue"]) => points.map(({ x, y }) => ({ x, y }));
  // Narrow pictures keep every second mark of six hours.
  const ticks = picture.ticks.filter(({ label }) => !narrow || label === "12" || label === "00");
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
      layout: { padding: { right: 4, top: 2 } },
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
          max: 90,
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
): Chart<"line"> {
  return new Chart(canvas, courseConfig(picture, inks, narrow));
}
