import type { UnitKind } from "./units.ts";

/** What a column of a station's file can be. */

export const TIME_ROLES = [
  "dateTime",
  "date",
  "time",
  "year",
  "month",
  "day",
  "dayOfYear",
  "hour",
  "minute",
] as const;
export type TimeRole = (typeof TIME_ROLES)[number];

/** Weather, under the canonical names, and the two other ways of writing rain. */
export const WEATHER_ROLES = [
  "airTempC",
  "dewPointC",
  "relHumidityPct",
  "vapourPressureKPa",
  "windSpeedMps",
  "solarWm2",
  "rainMm",
  "rainTotalMm",
  "rainRateMmH",
  "cloudPct",
  "pressureHpa",
] as const;
export type WeatherRole = (typeof WEATHER_ROLES)[number];

export type Role = TimeRole | WeatherRole | "ignored";
export const ROLES: readonly Role[] = [...TIME_ROLES, ...WEATHER_ROLES, "ignored"];

export const UNIT_KIND_OF: Readonly<Record<WeatherRole, UnitKind>> = {
  airTempC: "temperature",
  dewPointC: "temperature",
  relHumidityPct: "humidity",
  vapourPressureKPa: "vapour",
  windSpeedMps: "wind",
  solarWm2: "solar",
  rainMm: "rain",
  rainTotalMm: "rain",
  rainRateMmH: "rainRate",
  cloudPct: "cloud",
  pressureHpa: "pressure",
};

export function isWeatherRole(role: Role): role is WeatherRole {
  return (WEATHER_ROLES as readonly string[]).includes(role);
}

export function isRole(text: string): text is Role {
  return (ROLES as readonly string[]).includes(text);
}

/** What a word of a header says, in small letters with single spaces and without its unit. */
interface Rule {
  readonly role: Role;
  readonly is: RegExp;
  readonly not?: RegExp;
}

const NOT_AIR =
  /soil|dew|wet|max|min|\bhi\b|high|low|in(side|door)|heat|chill|feel|water|leaf|grass|canopy|battery|panel|ground|surface|apparent|humidex/;
const NOT_OUT = /in(side|door)|soil|leaf|max|min/;
const NOT_MEAN_WIND = /gust|max|peak|hi(gh)?\b|dir|deg|chill|run|vector|samples?|std|sigma/;
const NOT_GLOBAL =
  /uv|par\b|ppfd|net|long|diffuse|direct|dni|dhi|dif|\bhi(gh)?\b|max|energy index|clear|extraterrestrial|etr|out|reflect|albedo/;
const NOT_RAIN = /chance|prob|days?\b|since|snow|duration|time|flag|quality/;

/** Read from the top: the first that fits is taken. Names as stations of many makers write them, from memory. */
const RULES: readonly Rule[] = [
  {
    role: "dateTime",
    is: /^(date ?time|time ?stamp|timestamp|date and time|date time.*|observation time|obs(ervation)? ?time|valid|simple date|datum.?zeit|datetime.*|utc|yyyymmdd ?hhmm)$/,
  },
  {
    role: "date",
    is: /^(date|day date|datum|fecha|yyyymmdd|date mm dd yyyy|date lst|local date|lst date|utc date|date utc)$/,
  },
  {
    role: "time",
    is: /^(time|zeit|uhrzeit|hh mm|time hh mm|time lst|lst time|local time|utc time|time utc|hora|heure|clock)$/,
  },
  { role: "year", is: /^(year|yr|yyyy|jahr)$/ },
  { role: "month", is: /^(month|mo|mon|mm|monat)$/ },
  { role: "dayOfYear", is: /^(doy|day of year|jday|julian( day)?|jul day|yday)$/ },
  { role: "day", is: /^(day|dd|dom|day of month|tag)$/ },
  { role: "hour", is: /^(hour|hr|hh|hour pst|hour lst|stunde|hour utc|time hour)$/ },
  { role: "minute", is: /^(minute|min|mn|minuten)$/ },
  { role: "dewPointC", is: /dew ?p|^dewpoint|^td( |$)|^tdew|taupunkt|^dew( |$)|dew ?point/, not: NOT_OUT },
  {
    role: "relHumidityPct",
    is: /rel(ative)? ?hum|^rh( |$|um|\d)|humid|\bhum( |$)|feuchte|luftfeucht|^r h$/,
    not: NOT_OUT,
  },
  { role: "vapourPressureKPa", is: /vap(ou?r)? ?pres/, not: /def|sat/ },
  {
    role: "airTempC",
    is: /temp|^t( |$)|^ta( |$)|^tc( |$)|^tair|^t2m|^t 2m|^tmp|dry ?bulb|^air t/,
    not: NOT_AIR,
  },
  {
    role: "windSpeedMps",
    is: /wind ?(sp|vel)|^ws( |$|\d|pd)|^wspd|^wind( avg| speed)?$|^u2( |$)|avg wind|wind avg|^ff( |$)|^wind 2 ?m|windgeschw|^wind m/,
    not: NOT_MEAN_WIND,
  },
  {
    role: "solarWm2",
    is: /solar|^ghi( |$)|global|^sr( |$)|^rs( |$)|short ?wave|radiation|pyran|^g h( |$)|^srad|^slr|^sol rad|globalstrahl|insolation|^rad( |$)/,
    not: NOT_GLOBAL,
  },
  { role: "rainRateMmH", is: /(rain|precip).*rate|hourly rain|rate.*(rain|precip)/, not: NOT_RAIN },
  {
    role: "rainTotalMm",
    is: /(daily|day|event|week(ly)?|month(ly)?|year(ly)?|total|cum(ulative)?|accum(ulated)?|storm) ?(rain|precip)|(rain|precip)(fall|itation)? ?(daily|total|cum(ulative)?|accum(ulated)?|today|event|to date|counter)/,
    not: NOT_RAIN,
  },
  { role: "rainMm", is: /rain|precip|^prcp|^pcp|^ppt|^pp( |$)|niederschlag|^rr( |$)/, not: NOT_RAIN },
  {
    role: "cloudPct",
    is: /cloud|sky ?cover|totcld|^tcc( |$)|bewoelk/,
    not: /opaque|base|height|ceil|low|mid|high/,
  },
  {
    role: "pressureHpa",
    is: /(station|abs(olute)?|surface|site|air)? ?(press|baro)|^sp( |$)/,
    not: /rel|sea|msl|vap|trend|tend|alt|slp/,
  },
];

/** The role that a header's name speaks of; "ignored" where none does. */
export function roleOfName(name: string): Role {
  const words = name
    .toLowerCase()
    .replace(/[_\-./:;,#*']+/g, " ")
    .replace(/\s+/g, " ")
    .trim();
  return RULES.find(({ is, not }) => is.test(words) && !not?.test(words))?.role ?? "ignored";
}

/** Names that only mean something together: short codes of one network, with the units it documents. */
export interface CodeFamily {
  readonly said: string;
  /** At least these must be there. */
  readonly needs: readonly string[];
  readonly codes: Readonly<Record<string, { readonly role: Role; readonly unit?: string }>>;
  /** Its wind is a mean of the hour before the label even where the other values are of the moment. */
  readonly windOfHourBefore?: boolean;
}

/**
 * A western US network of agricultural stations (documented by its operator): temperatures in degF, wind in mph, sun in
 * langley an hour, rain as a counter in inches. The Dutch service's hourly files (documented there): tenths, J/cm2, UT.
 */
export const CODE_FAMILIES: readonly CodeFamily[] = [
  {
    said: "a western US agricultural network, by its documented codes",
    needs: ["ob", "ws"],
    windOfHourBefore: true,
    codes: {
      ob: { role: "airTempC", unit: "degF" },
      tp: { role: "dewPointC", unit: "degF" },
      tu: { role: "relHumidityPct", unit: "pct" },
      ea: { role: "vapourPressureKPa", unit: "kPa" },
      ws: { role: "windSpeedMps", unit: "mph" },
      si: { role: "solarWm2", unit: "langleyH" },
      pc: { role: "rainTotalMm", unit: "inch" },
    },
  },
  {
    said: "the Dutch weather service's hourly files, by their documented codes",
    needs: ["yyyymmdd", "hh", "fh"],
    codes: {
      yyyymmdd: { role: "date" },
      hh: { role: "hour" },
      fh: { role: "windSpeedMps", unit: "tenthMps" },
      dd: { role: "ignored" },
      ff: { role: "ignored" },
      fx: { role: "ignored" },
      t10n: { role: "ignored" },
      sq: { role: "ignored" },
      dr: { role: "ignored" },
      t: { role: "airTempC", unit: "tenthDegC" },
      td: { role: "dewPointC", unit: "tenthDegC" },
      q: { role: "solarWm2", unit: "Jcm2" },
      rh: { role: "rainMm", unit: "tenthMm" },
      u: { role: "relHumidityPct", unit: "pct" },
      p: { role: "ignored" },
      n: { role: "cloudPct", unit: "oktas" },
    },
  },
  {
    said: "the US climate reference network's hourly files, by their documented codes",
    needs: ["t_calc", "solarad"],
    codes: {
      utc_date: { role: "date" },
      utc_time: { role: "time" },
      t_calc: { role: "airTempC", unit: "degC" },
      p_calc: { role: "rainMm", unit: "mm" },
      solarad: { role: "solarWm2", unit: "Wm2" },
      rh_hr_avg: { role: "relHumidityPct", unit: "pct" },
      wind_1_5: { role: "windSpeedMps", unit: "mps" },
    },
  },
];
