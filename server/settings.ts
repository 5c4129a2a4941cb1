import type { Issue, Outcome } from "../model/limits.ts";
import type { ForecastSettings } from "./forecasts/the-services.ts";

export interface Settings {
  readonly host: string;
  readonly port: number;
  /** Every /api request must carry it as a bearer token; null = no key, and then only loopback is served. */
  readonly accessKey: string | null;
}

const DEFAULT_PORT = 8787;
const MIN_KEY_LENGTH = 16;
const LOOPBACK = new Set(["127.0.0.1", "::1", "localhost"]);

export function isLoopback(host: string): boolean {
  return LOOPBACK.has(host);
}

/** Reads PORT, HOST and SWATHCLOCK_KEY. An empty variable counts as not set. */
export function readSettings(env: Readonly<Record<string, string | undefined>>): Outcome<Settings> {
  const issues: Issue[] = [];
  const portText = env.PORT || String(DEFAULT_PORT);
  const port = /^\d{1,5}$/.test(portText) ? Number(portText) : Number.NaN;
  if (!(port >= 0 && port <= 65_535)) {
    const message = `PORT: got "${portText}", must be a whole number from 0 (any free port) to 65535`;
    issues.push({ path: "PORT", code: "out-of-range", message });
  }
  const host = env.HOST || "127.0.0.1";
  const accessKey = env.SWATHCLOCK_KEY || null;
  if (accessKey !== null && !/^[\x21-\x7e]+$/.test(accessKey)) {
    const message = "SWATHCLOCK_KEY: must be printable ASCII without spaces, so that a header can carry it";
    issues.push({ path: "SWATHCLOCK_KEY", code: "bad-key", message });
  } else if (accessKey !== null && accessKey.length < MIN_KEY_LENGTH) {
    const message = `SWATHCLOCK_KEY: got ${accessKey.length} characters, must be at least ${MIN_KEY_LENGTH}`;
    issues.push({ path: "SWATHCLOCK_KEY", code: "too-short", message });
  }
  if (accessKey === null && !isLoopback(host)) {
    const message =
      `HOST: got "${host}", which other machines can reach; ` +
      `set SWATHCLOCK_KEY to an access key of at least ${MIN_KEY_LENGTH} characters, or leave HOST at 127.0.0.1`;
    issues.push({ path: "HOST", code: "key-needed", message });
  }
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value: { host, port, accessKey } };
}

const SERVICE_URLS = {
  openMeteoUrl: ["SWATHCLOCK_OPEN_METEO_URL", "https://api.open-meteo.com"],
  openMeteoEnsembleUrl: ["SWATHCLOCK_OPEN_METEO_ENSEMBLE_URL", "https://ensemble-api.open-meteo.com"],
  openMeteoArchiveUrl: ["SWATHCLOCK_OPEN_METEO_ARCHIVE_URL", "https://archive-api.open-meteo.com"],
  metNorwayUrl: ["SWATHCLOCK_MET_NORWAY_URL", "https://api.met.no"],
  nwsUrl: ["SWATHCLOCK_NWS_URL", "https://api.weather.gov"],
  brightSkyUrl: ["SWATHCLOCK_BRIGHT_SKY_URL", "https://api.brightsky.dev"],
} as const satisfies Partial<Record<keyof ForecastSettings, readonly [string, string]>>;

const DEFAULT_USER_AGENT = "swathclock/0.1 (no contact set)";
const DEFAULT_ENSEMBLE_MODELS = "ecmwf_ifs025_ensemble";

/** An origin with its path prefix, without a slash at its end; null where it is not one. */
function baseUrl(text: string): string | null {
  if (!URL.canParse(text)) return null;
  const { protocol, search, hash, username } = new URL(text);
  if ((protocol !== "http:" && protocol !== "https:") || search !== "" || hash !== "" || username !== "") {
    return null;
  }
  return text.replace(/\/+$/, "");
}

/**
 * Reads where the weather services are, the key and the User-Agent. An empty variable counts as not set. With a key and
 * no address of one's own, Open-Meteo's hosts for customers are asked.
 */
export function readForecastSettings(
  env: Readonly<Record<string, string | undefined>>,
): Outcome<ForecastSettings> {
  const issues: Issue[] = [];
  const openMeteoKey = env.SWATHCLOCK_OPEN_METEO_KEY || null;
  const url = (which: keyof typeof SERVICE_URLS): string => {
    const [name, free] = SERVICE_URLS[which];
    const customers = openMeteoKey !== null && which.startsWith("openMeteo");
    const text = env[name] || (customers ? free.replace("https://", "https://customer-") : free);
    const base = baseUrl(text);
    if (base !== null) return base;
    const message = `${name}: got "${text}", must be an http or https address without a query, as ${free}`;
    issues.push({ path: name, code: "bad-url", message });
    return free;
  };
  if (openMeteoKey !== null && !/^[\x21-\x7e]+$/.test(openMeteoKey)) {
    const message = "SWATHCLOCK_OPEN_METEO_KEY: must be printable ASCII without spaces";
    issues.push({ path: "SWATHCLOCK_OPEN_METEO_KEY", code: "bad-key", message });
  }
  const userAgent = env.SWATHCLOCK_USER_AGENT || DEFAULT_USER_AGENT;
  if (!/^[\x20-\x7e]+$/.test(userAgent)) {
    const message = "SWATHCLOCK_USER_AGENT: must be printable ASCII, so that a header can carry it";
    issues.push({ path: "SWATHCLOCK_USER_AGENT", code: "bad-user-agent", message });
  }
  const modelsText = env.SWATHCLOCK_OPEN_METEO_ENSEMBLE_MODELS || DEFAULT_ENSEMBLE_MODELS;
  const ensembleModels = modelsText.split(",").map((name) => name.trim());
  if (!ensembleModels.every((name) => /^[a-z0-9_]+$/i.test(name))) {
    const name = "SWATHCLOCK_OPEN_METEO_ENSEMBLE_MODELS";
    const message = `${name}: got "${modelsText}", must be names of models with commas between, as ${DEFAULT_ENSEMBLE_MODELS}`;
    issues.push({ path: name, code: "bad-models", message });
  }
  const value: ForecastSettings = {
    openMeteoUrl: url("openMeteoUrl"),
    openMeteoEnsembleUrl: url("openMeteoEnsembleUrl"),
    openMeteoArchiveUrl: url("openMeteoArchiveUrl"),
    openMeteoKey,
    ensembleModels,
    metNorwayUrl: url("metNorwayUrl"),
    nwsUrl: url("nwsUrl"),
    brightSkyUrl: url("brightSkyUrl"),
    userAgent,
  };
  return issues.length > 0 ? { ok: false, issues } : { ok: true, value };
}
