import type { Issue, Outcome } from "../../limits.ts";
import { type OddsWeatherKind, weatherDraws } from "../../odds/weather-draws.ts";
import { HOUR_MS } from "../../weather/clock.ts";
import type { HourlyWeather, PreparedWeather } from "../../weather/hourly.ts";
import { memberSeries } from "../../weather/members.ts";
import { prepareWeather } from "../../weather/prepare.ts";
import type { WeatherSeries } from "../../weather/series.ts";
import { CREW_CHOICES } from "../defaults.ts";

/** The weather of one site: the main forecast, and every member that reaches far enough. */
export interface SiteWeather {
  readonly central: PreparedWeather;
  /** The members, or widened copies of a single forecast; weather that is known stands alone. */
  readonly members: readonly HourlyWeather[];
  /** Where its chances come from: there are none for weather that is known. */
  readonly kind: OddsWeatherKind;
  /** Members that end early or could not be used. */
  readonly leftOut: number;
}

/** Members that end more than this before the main forecast are left out, h. */
const EARLY_H = 24;

/** Whether the weather is uncertain: only then are there chances. */
export function hasChance(site: Pick<SiteWeather, "kind"> | undefined): boolean {
  return site !== undefined && site.kind !== "known";
}

/** Every site's weather made ready, or all that is wrong with it. */
export function siteWeathers(
  sites: Readonly<Record<string, { readonly series: WeatherSeries }>>,
  nowUtcMs: number | null,
  seed: number,
): Outcome<Readonly<Record<string, SiteWeather>>> {
  const issues: Issue[] = [];
  const ready: Record<string, SiteWeather> = {};
  for (const [id, { series }] of Object.entries(sites)) {
    const central = prepareWeather(series);
    if (!central.ok) {
      issues.push(...central.issues.map((issue) => underSite(issue, id)));
      continue;
    }
    ready[id] = withMembers(series, central.value, nowUtcMs, seed);
  }
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: ready };
}

/** The checks of a series speak of `weather`; here it stands in its site. */
function underSite(issue: Issue, id: string): Issue {
  const path = issue.path.replace(/^weather/, `sites.${id}.series`);
  return { ...issue, path, message: issue.message.replace(issue.path, path) };
}

function withMembers(
  series: WeatherSeries,
  central: PreparedWeather,
  nowUtcMs: number | null,
  seed: number,
): SiteWeather {
  const asked = series.members?.length ?? 0;
  const members: HourlyWeather[] = [];
  for (let i = 0; i < asked; i++) {
    const prepared = prepareWeather(memberSeries(series, i));
    if (!prepared.ok) continue;
    const { weather, usableUntilUtcMs } = prepared.value;
    const late = weather.startUtcMs > central.weather.startUtcMs;
    if (!late && usableUntilUtcMs >= central.usableUntilUtcMs - EARLY_H * HOUR_MS) members.push(weather);
  }
  if (members.length > 1) return { central, members, kind: "members", leftOut: asked - members.length };
  const single = { ...series, members: undefined };
  const { kind, of } = weatherDraws(single, central, nowUtcMs, seed);
  const count = kind === "widened" ? CREW_CHOICES.widenedMembers.value : 1;
  return { central, members: Array.from({ length: count }, (_, i) => of(i)), kind, leftOut: asked };
}
