import { z } from "@hono/zod-openapi";
import { DAY_MS, HOUR_MS, utcLabelMs } from "../../model/weather/index.ts";
import { SERVICE_LABELS, SERVICE_TROUBLES } from "../../model/weather/service-words.ts";
import { asFailure, failureOfStatus, UpstreamFailure } from "./failure.ts";
import { allNull } from "./hours.ts";
import type { Network, Reply } from "./network.ts";
import {
  ARCHIVE_VARIABLES,
  ENSEMBLE_VARIABLES,
  FORECAST_VARIABLES,
  hoursOfTrajectory,
  memberOf,
  type OpenMeteoHours,
  readOpenMeteo,
} from "./open-meteo-columns.ts";
import {
  type ArchiveProvider,
  type ArchiveQuestion,
  type ForecastQuestion,
  type Note,
  type Provider,
  type ProviderAnswer,
  type ProviderHours,
  WIDENED_INSTEAD,
} from "./provider.ts";
import { readProblem } from "./read-body.ts";
import { type Held, openShelf } from "./shelf.ts";

/** Open-Meteo: forecast with past days, ensembles, and the archive of reanalyses. */

export interface OpenMeteoSettings {
  readonly forecastUrl: string;
  readonly ensembleUrl: string;
  readonly archiveUrl: string;
  readonly key: string | null;
  /** In the order in which their members are to come; at least one. */
  readonly ensembleModels: readonly string[];
}

/** So that swath and soil start from what fell and dried already. */
export const PAST_DAYS = 10;
const FORECAST_DAYS = 14;
/** More than this an ensemble service does not keep well; older hours are the shared ones. */
const ENSEMBLE_PAST_DAYS = 2;

const ENSEMBLE_GRACE_MS = 1500;
const KEEP_FORECAST_MS = HOUR_MS / 2;
const KEEP_ENSEMBLE_MS = 3 * HOUR_MS;
const KEEP_RECENT_ARCHIVE_MS = 3 * HOUR_MS;
/** Reanalyses older than this change no more; they are kept as long as there is room. */
const SETTLED_AFTER_MS = 10 * DAY_MS;

/** Hours between the values that a model really computed in its first days, as its maker documents them. */
const NATIVE_STEP_H: Readonly<Record<string, number>> = {
  ecmwf_ifs025_ensemble: 3,
  ecmwf_aifs025_ensemble: 6,
  ncep_gefs025: 3,
  ncep_gefs05: 3,
  ncep_gefs_seamless: 3,
  gem_global_ensemble: 3,
  bom_access_global_ensemble: 3,
};

const ATTRIBUTION = [
  { text: "Weather data by Open-Meteo.com", url: "https://open-meteo.com/" },
  {
    text: "CC BY 4.0; instants averaged to hours, radiation and rain labelled by the start of their hour",
    url: "https://creativecommons.org/licenses/by/4.0/",
  },
] as const;

const problemSchema = z.object({ reason: z.string() });

/** No Retry-After is promised: how long to keep away stands in the words. */
function explain(nowMs: () => number) {
  return ({ status, text }: Reply): UpstreamFailure => {
    const reason = readProblem(text, problemSchema)?.reason ?? "";
    const message = `answered ${status}: ${reason}`;
    if (status === 429 && /concurrent/i.test(reason)) {
      return new UpstreamFailure({ code: "rate-limited", message, retryHelps: true });
    }
    if (status === 429 && /hourly/i.test(reason)) {
      return new UpstreamFailure({ code: "rate-limited", message, pauseMs: HOUR_MS - (nowMs() % HOUR_MS) });
    }
    if (status === 429 && /daily|monthly/i.test(reason)) {
      return new UpstreamFailure({ code: "rate-limited", message, pauseMs: DAY_MS - (nowMs() % DAY_MS) });
    }
    if (status === 400 && /no data is available/i.test(reason)) {
      return new UpstreamFailure({ code: "outside-coverage", message });
    }
    return failureOfStatus(status, reason === "" ? text : reason);
  };
}

function address(
  base: string,
  path: string,
  { key }: OpenMeteoSettings,
  place: { latitude: number; longitude: number; elevationM: number | null },
  variables: readonly string[],
  more: Readonly<Record<string, string>>,
): string {
  const query = new URLSearchParams({
    latitude: String(place.latitude),
    longitude: String(place.longitude),
    hourly: variables.join(","),
    temperature_unit: "celsius",
    wind_speed_unit: "ms",
    precipitation_unit: "mm",
    timezone: "GMT",
    timeformat: "unixtime",
    ...more,
  });
  if (place.elevationM !== null) query.set("elevation", String(place.elevationM));
  if (key !== null) query.set("apikey", key);
  return `${base}${path}?${query}`;
}

function sharedHours(value: OpenMeteoHours): ProviderHours {
  const first = value.trajectories[0];
  if (first === undefined) {
    throw new UpstreamFailure({
      code: "unreadable",
      message: "the answer holds none of the columns asked for",
    });
  }
  return hoursOfTrajectory(first.columns);
}

function answerOf(
  { value, checkedMs }: Held<OpenMeteoHours>,
  rest: Pick<ProviderAnswer, "model" | "members" | "notes">,
): ProviderAnswer {
  return {
    provider: "open-meteo",
    issuedMs: null,
    fetchedMs: checkedMs,
    elevationM: value.elevationM,
    nativeStepHours: 1,
    attribution: ATTRIBUTION,
    startMs: value.startMs,
    hours: sharedHours(value),
    marks: {},
    ...rest,
  };
}

/** Members beside the shared hours, and what is to be said of them. */
function membersOf(
  ensemble: OpenMeteoHours,
  shared: OpenMeteoHours,
  models: readonly string[],
): Pick<ProviderAnswer, "members" | "notes"> {
  const hours = sharedHours(shared);
  const whole = ensemble.trajectories.filter(({ columns }) => !allNull(columns.temperature_2m ?? []));
  const members = whole.map((trajectory) => memberOf(trajectory, ensemble.startMs, hours, shared.startMs));
  const notes: Note[] = [];
  const instead = members.length > 0 ? "" : ` ${WIDENED_INSTEAD}`;
  for (const model of models) {
    const count = whole.filter((trajectory) => trajectory.model === model).length;
    const stepH = NATIVE_STEP_H[model] ?? 1;
    const steps =
      stepH > 1 ? `; its values are ${stepH} h apart or more, the hours between are interpolated` : "";
    notes.push(
      count === 0
        ? { code: "ensemble-missing", text: `The ensemble ${model} gave no member for this place.${instead}` }
        : { code: "ensemble", text: `${count} members of ${model}${steps}.` },
    );
  }
  return { members, notes };
}

export function openMeteo(network: Network, settings: OpenMeteoSettings): Provider & ArchiveProvider {
  const { ensembleModels: models } = settings;
  const name = "open-meteo";
  const kind = { name, explain: explain(network.nowMs) };
  const forecasts = openShelf(network, {
    ...kind,
    read: (text) => readOpenMeteo(text, []),
    freshUntilMs: (_headers, nowMs) => nowMs + KEEP_FORECAST_MS,
  });
  const ensembles = openShelf(network, {
    ...kind,
    read: (text) => readOpenMeteo(text, models),
    freshUntilMs: (_headers, nowMs) => nowMs + KEEP_ENSEMBLE_MS,
  });
  const archives = openShelf(network, {
    ...kind,
    read: (text) => readOpenMeteo(text, []),
    freshUntilMs: (_headers, nowMs, url) => {
      const lastDay = new URL(url).searchParams.get("end_date") ?? "";
      const settled = utcLabelMs(`${lastDay}T00:00Z`) + SETTLED_AFTER_MS < nowMs;
      return settled ? Number.POSITIVE_INFINITY : nowMs + KEEP_RECENT_ARCHIVE_MS;
    },
  });

  const spanOf = (pastDays: number) => ({
    past_days: String(pastDays),
    forecast_days: String(FORECAST_DAYS),
  });

  /** The ensemble, or why there is none: a forecast without members is better than no forecast. */
  async function tryEnsemble(question: ForecastQuestion, deadlineMs: number) {
    const url = address(settings.ensembleUrl, "/v1/ensemble", settings, question, ENSEMBLE_VARIABLES, {
      ...spanOf(ENSEMBLE_PAST_DAYS),
      models: models.join(","),
    });
    try {
      // A little less than the forecast has: an ensemble that hangs must not take it down with it.
      return await ensembles.get(url, deadlineMs - ENSEMBLE_GRACE_MS);
    } catch (error) {
      return asFailure(error);
    }
  }

  /** Why there are no members, in words for the page; what was answered goes to the log. */
  function missing({ code, message }: UpstreamFailure): Note {
    network.log(`${name}: ensemble: ${code}: ${message}`);
    const text = `The ensemble of ${SERVICE_LABELS[name]} ${SERVICE_TROUBLES[code]}. ${WIDENED_INSTEAD}`;
    return { code: "ensemble-missing", text };
  }

  return {
    name,
    forecast: async (question, deadlineMs) => {
      const url = address(
        settings.forecastUrl,
        "/v1/forecast",
        settings,
        question,
        FORECAST_VARIABLES,
        spanOf(PAST_DAYS),
      );
      const [held, ensemble] = await Promise.all([
        forecasts.get(url, deadlineMs),
        question.ensemble ? tryEnsemble(question, deadlineMs) : null,
      ]);
      const rest =
        ensemble === null
          ? { members: [], notes: [] }
          : ensemble instanceof UpstreamFailure
            ? { members: [], notes: [missing(ensemble)] }
            : membersOf(ensemble.value, held.value, models);
      return answerOf(held, { model: "best_match", ...rest });
    },
    archive: async ({ fromDay, toDay, ...place }: ArchiveQuestion, deadlineMs) => {
      const span = { start_date: fromDay, end_date: toDay };
      const url = address(settings.archiveUrl, "/v1/archive", settings, place, ARCHIVE_VARIABLES, span);
      const held = await archives.get(url, deadlineMs);
      return answerOf(held, { model: "best_match", members: [], notes: [] });
    },
  };
}
