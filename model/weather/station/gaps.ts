import type { WeatherSeries } from "../series.ts";

/** Hours in a row of which something that is needed is missing. */
export interface Gap {
  readonly fromUtc: string;
  readonly hours: number;
  readonly columns: readonly string[];
}

const MOST = 30;

/** The longest gaps, longest first. A column that is wholly absent is no gap. */
export function gapsOf({ hours }: WeatherSeries): Gap[] {
  const needed: [string, readonly (number | null)[]][] = [
    ["airTempC", hours.airTempC],
    ["relHumidityPct", hours.relHumidityPct ?? []],
    ["windSpeedMps", hours.windSpeedMps],
    ["rainMm", hours.rainMm],
    ["sun", hours.solarWm2 ?? hours.cloudPct ?? []],
  ];
  const present = needed.filter(([, column]) => column.some((value) => value !== null));
  const missing = (i: number) => present.flatMap(([name, column]) => (column[i] === null ? [name] : []));
  const gaps: Gap[] = [];
  for (let i = 0; i < hours.startUtc.length; i++) {
    const first = missing(i);
    if (first.length === 0) continue;
    const names = new Set(first);
    let to = i + 1;
    for (; to < hours.startUtc.length; to++) {
      const more = missing(to);
      if (more.length === 0) break;
      for (const name of more) names.add(name);
    }
    gaps.push({ fromUtc: hours.startUtc[i] ?? "", hours: to - i, columns: [...names] });
    i = to;
  }
  return gaps.toSorted((a, b) => b.hours - a.hours).slice(0, MOST);
}
