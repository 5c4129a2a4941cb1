import { celsiusOf, HEAT_TABLE, type HeatStep } from "../../model/harvest/route-details/index.ts";
import { DAY_MS } from "../../model/weather/clock.ts";
import { dayMs } from "./heat.ts";
import type { Probe } from "./kept.ts";

/** Where the probes and the steps of the table stand in a small chart. Pure, so that it can be tested without a page. */

export interface HeatPoint {
  readonly x: number;
  readonly y: number;
  readonly probe: Probe;
}

export interface HeatPicture {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly x0: number;
  readonly x1: number;
  /** The hottest of each day, joined. */
  readonly line: string;
  readonly points: readonly HeatPoint[];
  readonly steps: readonly { readonly y: number; readonly tempC: number; readonly row: HeatStep }[];
  readonly ticks: readonly { readonly x: number; readonly day: number }[];
}

const HEIGHT_PX = 320;
const TOP_PX = 10;
const FOOT_PX = 24;
const LEFT_PX = 64;
const RIGHT_PX = 10;
/** Between these the table has its steps. */
const LEAST_C = 20;
const MOST_C = 100;
const LEAST_DAYS = 7;

export function heatPicture(probes: readonly Probe[], widthPx: number): HeatPicture {
  const [x0, x1] = [LEFT_PX, Math.max(LEFT_PX + 40, widthPx - RIGHT_PX)];
  const [y0, y1] = [HEIGHT_PX - FOOT_PX, TOP_PX];
  const sorted = probes.toSorted((a, b) => dayMs(a.day) - dayMs(b.day));
  const first = sorted[0];
  const last = sorted.at(-1);
  const from = first ? dayMs(first.day) : 0;
  const span = Math.max(LEAST_DAYS, last ? (dayMs(last.day) - from) / DAY_MS : 0);
  const low = Math.min(LEAST_C, ...probes.map(({ tempC }) => tempC));
  const high = Math.max(MOST_C, ...probes.map(({ tempC }) => tempC));
  const xOf = (days: number) => x0 + (days / span) * (x1 - x0);
  const yOf = (tempC: number) => y0 + ((tempC - low) / (high - low)) * (y1 - y0);
  const points = sorted.map((probe) => ({
    x: xOf((dayMs(probe.day) - from) / DAY_MS),
    y: yOf(probe.tempC),
    probe,
  }));
  const hottest = new Map<number, HeatPoint>();
  for (const point of points) {
    const known = hottest.get(point.x);
    if (known === undefined || point.probe.tempC > known.probe.tempC) hottest.set(point.x, point);
  }
  const line = [...hottest.values()].map(({ x, y }, i) => `${i === 0 ? "M" : "L"}${x} ${y}`).join("");
  const every = span <= 8 ? 1 : span <= 21 ? 3 : Math.ceil(span / 7);
  return {
    widthPx,
    heightPx: HEIGHT_PX,
    x0,
    x1,
    line,
    points,
    steps: HEAT_TABLE.slice(1).map((row) => {
      const tempC = celsiusOf(row.fromF);
      return { y: yOf(tempC), tempC, row };
    }),
    ticks: Array.from({ length: Math.floor(span / every) + 1 }, (_none, i) => ({
      x: xOf(i * every),
      day: i * every,
    })),
  };
}
