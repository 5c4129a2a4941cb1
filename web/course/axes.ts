import type { Chart, ChartArea } from "chart.js";

/** Where hours and moistures lie on the drawn chart, px. */
export interface Axes {
  readonly area: ChartArea;
  /** Of the whole picture. */
  readonly widthPx: number;
  x(hours: number): number;
  y(pct: number): number;
}

export function axesOf(chart: Chart): Axes {
  const x = chart.scales.x;
  const y = chart.scales.y;
  return {
    area: chart.chartArea,
    widthPx: chart.width,
    x: (hours) => x?.getPixelForValue(hours) ?? 0,
    y: (pct) => y?.getPixelForValue(pct) ?? 0,
  };
}
