import { celsiusOfFahrenheit, HOURLY_TO_WM2, LANGLEY_MJ_M2, TO_HPA, TO_MM, TO_MPS } from "../units.ts";

/** The units in which stations write, by what they measure, and the words by which a header names them. */

export const UNIT_KINDS = [
  "temperature",
  "humidity",
  "vapour",
  "wind",
  "solar",
  "rain",
  "rainRate",
  "cloud",
  "pressure",
] as const;
export type UnitKind = (typeof UNIT_KINDS)[number];

export interface StationUnit {
  /** By which a mapping names it. */
  readonly key: string;
  /** As it is shown. */
  readonly label: string;
  /** As headers write it, in small letters without spaces. */
  readonly words: readonly string[];
  /** Its value in the model's unit. `stepH` is the time between rows: amounts of energy are of that time. */
  readonly toOurs: (value: number, stepH: number) => number;
  /** The model's value is only an estimate from it. */
  readonly estimated?: boolean;
}

const same = (value: number) => value;
const times = (factor: number) => (value: number) => value * factor;
/** An energy of one step, by its factor for an hour, as a mean flux. */
const ofStep = (hourly: number) => (value: number, stepH: number) => (value * hourly) / stepH;

const LANGLEY_DAY_WM2 = (LANGLEY_MJ_M2 * 1e6) / 86_400;
/** Rough, in sunlight: what a lux meter of a home station is worth. From memory. */
const LUX_PER_WM2 = 120;

/** The model's own unit is the first of each kind. Factors: model/weather/units.ts, exact by definition except the langley (ASCE practice) and the inch of mercury. */
export const STATION_UNITS: Readonly<Record<UnitKind, readonly StationUnit[]>> = {
  temperature: [
    {
      key: "degC",
      label: "°C",
      words: ["c", "°c", "degc", "℃", "celsius", "degreesc", "deg.c", "degreec"],
      toOurs: same,
    },
    {
      key: "degF",
      label: "°F",
      words: ["f", "°f", "degf", "℉", "fahrenheit", "degreesf", "deg.f", "degreef"],
      toOurs: celsiusOfFahrenheit,
    },
    { key: "tenthDegC", label: "0.1 °C", words: ["0.1c", "0.1°c", "0.1degc"], toOurs: times(0.1) },
    { key: "K", label: "K", words: ["k", "kelvin"], toOurs: (value) => value - 273.15 },
  ],
  humidity: [
    { key: "pct", label: "%", words: ["%", "pct", "percent", "perc", "%rh"], toOurs: same },
    { key: "fraction", label: "0-1", words: ["fraction", "frac", "0-1", "ratio"], toOurs: times(100) },
  ],
  vapour: [
    { key: "kPa", label: "kPa", words: ["kpa"], toOurs: same },
    { key: "hPa", label: "hPa", words: ["hpa", "mb", "mbar"], toOurs: times(0.1) },
  ],
  wind: [
    {
      key: "mps",
      label: "m/s",
      words: ["m/s", "mps", "ms", "ms-1", "m.s-1", "m/sec", "meters/second", "ms^-1"],
      toOurs: same,
    },
    { key: "kmh", label: "km/h", words: ["km/h", "kmh", "kph", "km/hr", "kmh-1"], toOurs: times(TO_MPS.kmh) },
    {
      key: "mph",
      label: "mph",
      words: ["mph", "mi/h", "miles/hour", "mi/hr", "mp/h"],
      toOurs: times(TO_MPS.mph),
    },
    { key: "knot", label: "knots", words: ["kn", "kt", "kts", "knot", "knots"], toOurs: times(TO_MPS.knot) },
    { key: "tenthMps", label: "0.1 m/s", words: ["0.1m/s"], toOurs: times(0.1) },
  ],
  solar: [
    {
      key: "Wm2",
      label: "W/m²",
      words: [
        "w/m2",
        "w/m²",
        "w/m^2",
        "w/sq.m",
        "w/sqm",
        "wm-2",
        "w.m-2",
        "watts/m2",
        "wm^-2",
        "watt/m2",
        "wm2",
      ],
      toOurs: same,
    },
    {
      key: "MJm2",
      label: "MJ/m² of the step",
      words: ["mj/m2", "mj/m²", "mj/m^2", "mjm-2", "mj/m2/step"],
      toOurs: ofStep(HOURLY_TO_WM2.megajoulePerM2),
    },
    {
      key: "MJm2h",
      label: "MJ/m² an hour",
      words: ["mj/m2/h", "mj/m²/h", "mj/m2h", "mj/m2/hr"],
      toOurs: times(HOURLY_TO_WM2.megajoulePerM2),
    },
    {
      key: "langley",
      label: "langley of the step",
      words: ["ly", "langley", "langleys"],
      toOurs: ofStep(HOURLY_TO_WM2.langley),
    },
    {
      key: "langleyH",
      label: "langley an hour",
      words: ["ly/h", "ly/hr", "langley/h", "langleys/hour", "langley/hr"],
      toOurs: times(HOURLY_TO_WM2.langley),
    },
    {
      key: "langleyDay",
      label: "langley a day",
      words: ["ly/day", "ly/d", "langley/day"],
      toOurs: times(LANGLEY_DAY_WM2),
    },
    {
      key: "Jcm2",
      label: "J/cm² of the step",
      words: ["j/cm2", "j/cm²", "jcm-2"],
      toOurs: ofStep(HOURLY_TO_WM2.joulePerCm2),
    },
    { key: "Whm2", label: "Wh/m² of the step", words: ["wh/m2", "wh/m²", "wh/m^2"], toOurs: ofStep(1) },
    {
      key: "kWhm2",
      label: "kWh/m² of the step",
      words: ["kwh/m2", "kwh/m²"],
      toOurs: ofStep(HOURLY_TO_WM2.kilowattHourPerM2),
    },
    { key: "lux", label: "lux", words: ["lux", "lx"], toOurs: times(1 / LUX_PER_WM2), estimated: true },
    {
      key: "klux",
      label: "klux",
      words: ["klux", "klx"],
      toOurs: times(1000 / LUX_PER_WM2),
      estimated: true,
    },
  ],
  rain: [
    {
      key: "mm",
      label: "mm",
      words: ["mm", "l/m2", "l/m²", "kg/m2", "millimeter", "millimetres"],
      toOurs: same,
    },
    { key: "inch", label: "in", words: ["in", "inch", "inches", "in.", '"'], toOurs: times(TO_MM.inch) },
    { key: "cm", label: "cm", words: ["cm"], toOurs: times(10) },
    { key: "tenthMm", label: "0.1 mm", words: ["0.1mm"], toOurs: times(0.1) },
  ],
  rainRate: [
    { key: "mmH", label: "mm/h", words: ["mm/h", "mm/hr", "mmh-1", "mm/hour"], toOurs: same },
    {
      key: "inchH",
      label: "in/h",
      words: ["in/h", "in/hr", "inches/hour", "inh-1"],
      toOurs: times(TO_MM.inch),
    },
  ],
  cloud: [
    { key: "pct", label: "%", words: ["%", "pct", "percent"], toOurs: same },
    { key: "tenths", label: "tenths", words: ["tenths", "tenth"], toOurs: times(10) },
    { key: "oktas", label: "eighths", words: ["oktas", "okta", "eighths", "/8"], toOurs: times(12.5) },
    { key: "fraction", label: "0-1", words: ["fraction", "0-1"], toOurs: times(100) },
  ],
  pressure: [
    { key: "hPa", label: "hPa", words: ["hpa", "mb", "mbar", "millibar", "millibars"], toOurs: same },
    { key: "kPa", label: "kPa", words: ["kpa"], toOurs: times(TO_HPA.kilopascal) },
    { key: "Pa", label: "Pa", words: ["pa"], toOurs: times(TO_HPA.pascal) },
    {
      key: "inHg",
      label: "inHg",
      words: ["inhg", "in.hg", "hg", "inches"],
      toOurs: times(TO_HPA.inchOfMercury),
    },
    { key: "tenthHPa", label: "0.1 hPa", words: ["0.1hpa"], toOurs: times(0.1) },
  ],
};

/** The unit that a header's words name, or null. */
export function unitOfWords(kind: UnitKind, words: string): StationUnit | null {
  const bare = words
    .toLowerCase()
    .replace(/\s+/g, "")
    .replace(/^\(|\)$|^\[|\]$/g, "");
  if (bare === "") return null;
  return (
    STATION_UNITS[kind].find((unit) => unit.words.includes(bare) || unit.key.toLowerCase() === bare) ?? null
  );
}

export function unitOfKey(kind: UnitKind, key: string): StationUnit | null {
  return STATION_UNITS[kind].find((unit) => unit.key === key) ?? null;
}
