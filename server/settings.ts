import type { Issue, Outcome } from "../model/limits.ts";
import type { AccessSettings } from "./access.ts";
import { readAccessKeys } from "./access-keys.ts";
import type { ForecastSettings } from "./forecasts/the-services.ts";

type Env = Readonly<Record<string, string | undefined>>;

export interface Settings extends AccessSettings {
  readonly host: string;
  readonly port: number;
}

const DEFAULT_PORT = 8787;
const LOOPBACK = new Set(["127.0.0.1", "::1", "localhost"]);

export function isLoopback(host: string): boolean {
  return LOOPBACK.has(host);
}

/** A switch: set or not. */
function readSwitch(env: Env, name: string): Outcome<boolean> {
  const text = env[name] || "false";
  if (text === "true" || text === "false") return { ok: true, value: text === "true" };
  const message = `${name}: got "${text}", must be true or false`;
  return { ok: false, issues: [{ path: name, code: "unknown-value", message }] };
}

/**
 * Reads PORT, SWATHCLOCK_HOST (or HOST), SWATHCLOCK_KEYS and SWATHCLOCK_TRUST_PROXY. An empty variable counts as not
 * set. A host that other machines can reach needs keys.
 */
export function readSettings(env: Env): Outcome<Settings> {
  const issues: Issue[] = [];
  const portText = env.PORT || String(DEFAULT_PORT);
  const port = /^\d{1,5}$/.test(portText) ? Number(portText) : Number.NaN;
  if (!(port >= 0 && port <= 65_535)) {
    const message = `PORT: got "${portText}", must be a whole number from 0 (any free port) to 65535`;
    issues.push({ path: "PORT", code: "out-of-range", message });
  }
  const host = env.SWATHCLOCK_HOST || env.HOST || "127.0.0.1";
  const keys = env.SWATHCLOCK_KEYS ? readAccessKeys(env.SWATHCLOCK_KEYS) : null;
  if (keys?.ok === false) issues.push(...keys.issues);
  if (env.SWATHCLOCK_KEY) {
    // To go on without it would open what was closed.
    const message =
      "SWATHCLOCK_KEY: is not read any more; name the key and its role: SWATHCLOCK_KEYS=me:edit:KEY";
    issues.push({ path: "SWATHCLOCK_KEY", code: "replaced", message });
  }
  if (keys === null && !isLoopback(host)) {
    const message =
      `SWATHCLOCK_HOST: got "${host}", which other machines can reach; ` +
      "set SWATHCLOCK_KEYS to named keys, as me:edit:A-KEY-OF-16-CHARACTERS, or leave it at 127.0.0.1";
    issues.push({ path: "SWATHCLOCK_HOST", code: "key-needed", message });
  }
  const proxy = readSwitch(env, "SWATHCLOCK_TRUST_PROXY");
  if (!proxy.ok) issues.push(...proxy.issues);
  if (issues.length > 0) return { ok: false, issues };
  const trustProxy = proxy.ok && proxy.value;
  return { ok: true, value: { host, port, keys: keys?.ok ? keys.value : [], trustProxy } };
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
