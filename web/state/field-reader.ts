import { SWATH_LIMITS } from "../../model/drying/index.ts";
import {
  HARVEST_COUNTS,
  HARVEST_LIMITS,
  ROUTE_CATALOGUE,
  ROUTES,
  type StandingRequest,
} from "../../model/harvest/index.ts";
import { type Limit, within } from "../../model/limits.ts";
import { type Manner, numberMarksOf, numberText } from "../format/manner.ts";
import { toPage, toStep, type Units, unitName } from "../format/units.ts";
import { hourWords, readClock, readHour, shownClock, twofoldHours } from "./clock-text.ts";
import { FIELD_LIMITS, type LimitedField, limitOnPage } from "./field-limits.ts";
import { type Inputs, TEXT_FIELDS, type TextField } from "./inputs.ts";
import { gotNumber, limitWords, notANumber, readNumber } from "./numbers.ts";
import { shownCut, swathRange } from "./swath-range.ts";
import { shownText, typedValue } from "./typed.ts";

export type InputErrors = Readonly<Partial<Record<TextField | "routes" | "fieldName", string>>>;

/** How errors speak. Without units each speaks in those its field was typed in. */
export type Speech = Partial<Pick<Manner, "units" | "locale" | "hour12">>;

/** When the passes by hand run; 0 for those that are not chosen. */
export interface PassTimes {
  readonly tedHour: number;
  readonly tedAfterH: number;
  readonly rakeBeforeH: number;
}

/** Reads the fields one by one and keeps what is wrong with each. */
export class FieldReader {
  readonly errors: Partial<Record<TextField | "routes" | "fieldName", string>> = {};
  readonly locale: string;

  constructor(
    readonly inputs: Inputs,
    private readonly speech: Speech,
  ) {
    this.locale = speech.locale ?? "en";
  }

  /** Units in which a field is spoken of. */
  unitsOf(field: TextField): Units {
    return this.speech.units ?? this.inputs.texts[field].units;
  }

  /** What stands in the field, as its reader sees it. */
  #got(field: TextField): string {
    const typed = this.inputs.texts[field];
    const shown = shownText(field, typed, this.unitsOf(field), this.locale).trim();
    const value = readNumber(shown, numberMarksOf(this.locale));
    return value === null ? shown : gotNumber(value, this.locale);
  }

  /** A width in words, for an error by the field. */
  #widthText(field: TextField, widthM: number, units: Units): string {
    const { units: typedIn } = this.inputs.texts[field];
    const page = toPage(widthM, "width", units);
    const told = typedIn === units ? page : toStep(page, "width", units);
    return `${numberText(told, 2, { locale: this.locale })} ${unitName("width", units)}`;
  }

  /** What the swath may measure at the cut as it is typed, as its field prints it. */
  #swathRange(): string {
    const units = this.unitsOf("swathWidthM");
    return swathRange(this.inputs, { units, locale: this.locale }) ?? `above 0 ${unitName("width", units)}`;
  }

  /** Whether a swath is no wider than the cut is shown in the units that the swath was typed in. */
  #asShown(swathM: number): boolean {
    const { units } = this.inputs.texts.swathWidthM;
    const shown = shownCut(this.inputs, units);
    return shown !== null && toPage(swathM, "width", units) <= shown + 1e-9;
  }

  limitText(limit: Limit, field: TextField, units = this.unitsOf(field)): string {
    return limitWords(limitOnPage(limit, TEXT_FIELDS[field], units), this.locale);
  }

  #notANumber(field: TextField, limit?: Limit): void {
    const { text, marks } = this.inputs.texts[field];
    const keeps = limit && { limit, locale: this.locale };
    this.errors[field] = text.trim() === "" ? "Empty; a number is needed." : notANumber(text, marks, keeps);
  }

  limited(field: LimitedField): number | undefined {
    const value = typedValue(field, this.inputs.texts[field]);
    const limit: Limit = FIELD_LIMITS[field];
    if (value === null) {
      const { units } = this.inputs.texts[field];
      this.#notANumber(field, limitOnPage(limit, TEXT_FIELDS[field], units));
      return undefined;
    }
    if (within(value, limit)) return value;
    const meant = isPercent(field) ? meantPercent(value, limit) : "";
    this.errors[field] = `Got ${this.#got(field)}, ${this.limitText(limit, field)}.${meant}`;
    return undefined;
  }

  /** An empty field leaves the number to the model. */
  optional(field: LimitedField): number | undefined {
    return this.inputs.texts[field].text.trim() === "" ? undefined : this.limited(field);
  }

  /** What a swath may be wide goes by the cut; by itself it must be above nothing. */
  swathWidth(): number | undefined {
    const field = "swathWidthM";
    const value = typedValue(field, this.inputs.texts[field]);
    if (value === null) this.#notANumber(field);
    else if (!(value > 0)) this.errors[field] = `Got ${this.#got(field)}, must be ${this.#swathRange()}.`;
    else return value;
    return undefined;
  }

  covered(): number | undefined {
    const cut = this.limited("mowerCutM");
    const swath = this.swathWidth();
    if (cut === undefined || swath === undefined) return undefined;
    const limit = SWATH_LIMITS.coveredFraction;
    const share = Number((swath / cut).toFixed(4));
    if (within(share, limit)) return share;
    // A swath as wide as the cut that its field shows is as wide, whatever the last digit of the metres says.
    if (share > limit.max && this.#asShown(swath)) return limit.max;
    const units = this.unitsOf("swathWidthM");
    const words = (field: TextField, widthM: number) => this.#widthText(field, widthM, units);
    const of = `Got ${words("swathWidthM", swath)}, must be ${this.#swathRange()} at a cut of ${words("mowerCutM", cut)}`;
    this.errors.swathWidthM =
      share > limit.max
        ? `${of}: a swath covers at most ${limit.max * 100} % of it.`
        : `${of}: a swath covers at least ${limit.min * 100} % of it.`;
    return undefined;
  }

  clock(field: "workFrom" | "workTo"): string | undefined {
    const end = field === "workTo";
    const text = this.inputs.texts[field].text.trim();
    const reading = readClock(text, end);
    if (reading !== null) return reading;
    const got =
      text === "" ? `Empty; the ${end ? "end" : "start"} of the working day is needed` : `Got "${text}"`;
    const as = this.speech.hour12
      ? "as 7 am or 7:30 pm"
      : `HH:MM from 00:00 to ${end ? "24:00" : "23:59"}, or as 7 am`;
    this.errors[field] = `${got}, must be a time ${as}.`;
    return undefined;
  }

  /** A working day that ends when it begins: which end is meant otherwise, its reader knows. */
  noWorkHours(reading: string): void {
    const { hour12 = false } = this.speech;
    const whole = hour12 ? "Midnight to midnight" : "00:00 to 24:00";
    const error = `Got ${shownClock("workFrom", reading, hour12)} for start and end, which must differ. ${whole} is the whole day.`;
    this.errors.workFrom = error;
    this.errors.workTo = error;
  }

  /** Only the time of the pass that is chosen has to be right; the others keep what stands in them. */
  passTimes(): PassTimes | undefined {
    const { ted, rake } = this.inputs;
    const chosen = {
      tedHour: ted === "morning-after",
      tedAfterH: ted === "after-cut",
      rakeBeforeH: rake === "before-window",
    };
    const read = (field: "tedAfterH" | "rakeBeforeH") => (chosen[field] ? this.limited(field) : 0);
    const tedHour = chosen.tedHour ? this.tedHour() : 0;
    const tedAfterH = read("tedAfterH");
    const rakeBeforeH = read("rakeBeforeH");
    if (tedHour === undefined || tedAfterH === undefined || rakeBeforeH === undefined) return undefined;
    return { tedHour, tedAfterH, rakeBeforeH };
  }

  tedHour(): number | undefined {
    const hour = this.limited("tedHour");
    if (hour === undefined || Number.isInteger(hour)) return hour;
    this.errors.tedHour = `Got ${this.#got("tedHour")}, must be a whole hour.`;
    return undefined;
  }

  cutHours(): number[] | undefined {
    const parts = hourWords(this.inputs.texts.cutHours.text);
    const most = HARVEST_COUNTS.cutHours;
    const { min, max } = HARVEST_LIMITS.cutHour;
    if (parts.length === 0)
      this.errors.cutHours = `Empty; at least 1 hour is needed, ${this.speech.hour12 ? "as 9 am 1 pm 5 pm" : "as 9 13 17"}.`;
    const twofold = twofoldHours(this.inputs.texts.cutHours.text);
    if (twofold !== null) {
      const [first, second] = twofold.split(",");
      this.errors.cutHours = `Got "${twofold}", must be whole hours from ${min} to ${max} with a space between them: "${first} ${second}" for two hours.`;
    }
    if (parts.length > most) this.errors.cutHours = `Got ${parts.length} hours, must be at most ${most}.`;
    const hours = parts.map((part) => {
      const hour = readHour(part) ?? Number.NaN;
      if (!within(hour, HARVEST_LIMITS.cutHour))
        this.errors.cutHours = `Got "${part}", must be whole hours ${this.speech.hour12 ? "as 9 am 1 pm" : `from ${min} to ${max}, as 9 13 17 or 9 am 1 pm`}.`;
      return hour;
    });
    return this.errors.cutHours === undefined ? [...new Set(hours)] : undefined;
  }

  /** Numbers of a crop that stands, asked only where a route needs them. */
  standing(moistureWb: number): StandingRequest | undefined {
    const { routes } = this.inputs;
    const fresh = ROUTES.some((route) => routes[route].on && !ROUTE_CATALOGUE[route].wholeArea);
    const dryDownPointsPerDay = routes["direct-chop"].on ? this.optional("dryDownPointsPerDay") : undefined;
    const dailyNeedKgDm = fresh ? this.optional("dailyNeedKgDm") : undefined;
    if (!ROUTES.some((route) => routes[route].on && ROUTE_CATALOGUE[route].kind === "standing"))
      return undefined;
    return {
      moistureWb,
      ...(dryDownPointsPerDay === undefined ? {} : { dryDownPointsPerDay }),
      ...(dailyNeedKgDm === undefined ? {} : { dailyNeedKgDm }),
    };
  }
}

function isPercent(field: LimitedField): boolean {
  return FIELD_LIMITS[field].unit === "%";
}

/** A share typed for a percentage: 0.78 is 78. */
function meantPercent(value: number, { min, max }: Limit): string {
  const percent = value * 100;
  return percent >= min && percent <= max ? ` Did you mean ${Number(percent.toFixed(1))}?` : "";
}
