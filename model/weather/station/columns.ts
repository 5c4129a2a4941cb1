import type { CsvQuestion } from "../csv-questions.ts";
import type { ProblemList } from "../problems.ts";
import { excerpt } from "../shown.ts";
import { AS, COLUMN, type StationAnswers, UNIT } from "./answers.ts";
import { isRole, isWeatherRole, type Role, UNIT_KIND_OF, type WeatherRole } from "./roles.ts";
import { type Table, type TableColumn, unitOfHeader } from "./table.ts";
import { STATION_UNITS, type StationUnit, type UnitKind, unitOfKey } from "./units.ts";

/** Which column is which, after what the user said, what the header says, and what only the data can say. */

export type { StationAnswers };

export type Basis = "header" | "user" | "data";

export interface ChosenColumn {
  readonly name: string;
  readonly index: number;
  readonly role: Role;
  readonly unit: StationUnit | null;
  readonly basis: Basis;
  readonly why: string;
}

const RAIN_ROLES: readonly WeatherRole[] = ["rainMm", "rainTotalMm", "rainRateMmH"];
/** The same quantity under another name: only one of them is read. */
const group = (role: WeatherRole): string => (RAIN_ROLES.includes(role) ? "rain" : role);

interface Draft extends TableColumn {
  readonly index: number;
  readonly basis: Basis;
}

function saidOf(column: TableColumn, index: number, answers: StationAnswers, problems: ProblemList): Draft {
  const as = answers[`${AS}${column.name}`];
  const wanted = Object.entries(answers).find(
    ([id, answer]) => id.startsWith(COLUMN) && answer === column.name && isRole(id.slice(COLUMN.length)),
  );
  const role = wanted ? (wanted[0].slice(COLUMN.length) as Role) : as;
  if (role !== undefined && !isRole(role)) {
    const message = `${AS}${column.name}: got "${excerpt(role)}", must be a kind of column such as airTempC, rainTotalMm or ignored`;
    problems.error("unknown-answer", message, { column: column.name, value: role });
  }
  const known = role !== undefined && isRole(role) ? role : column.role;
  const isSaid = known !== column.role || (role !== undefined && isRole(role));
  // Said to be something else, it keeps the unit that its header states.
  const stated = () => (isWeatherRole(known) ? unitOfHeader(UNIT_KIND_OF[known], column) : null);
  let unit = isSaid && known !== column.role ? stated() : column.unit;
  let basis: Basis = isSaid ? "user" : "header";
  const unitKey = answers[`${UNIT}${column.name}`];
  if (unitKey !== undefined && isWeatherRole(known)) {
    const kind = UNIT_KIND_OF[known];
    unit = unitOfKey(kind, unitKey);
    basis = "user";
    if (unit === null) {
      const limit = STATION_UNITS[kind].map(({ key }) => key).join(", ");
      const message = `${UNIT}${column.name}: got "${excerpt(unitKey)}", must be one of ${limit}`;
      problems.error("unknown-answer", message, { column: column.name, value: unitKey, limit });
    }
  }
  return { ...column, index, role: known, unit, basis, why: basis === "user" ? "as you said" : column.why };
}

/** An answer that speaks of a column which the file does not have. */
function refuseStrangers(table: Table, answers: StationAnswers, problems: ProblemList): void {
  const names = new Set(table.columns.map(({ name }) => name));
  for (const [id, answer] of Object.entries(answers)) {
    const head = [AS, UNIT].find((prefix) => id.startsWith(prefix));
    const name = head === undefined ? (id.startsWith(COLUMN) ? answer : undefined) : id.slice(head.length);
    if (name === undefined || names.has(name)) continue;
    const limit = excerpt([...names].join(", "), 200);
    const message = `${excerpt(id)}: the file has no column "${excerpt(name)}"; it has ${limit}`;
    problems.error("unknown-answer", message, { column: excerpt(name), value: excerpt(answer ?? ""), limit });
  }
}

/** One column for each quantity; what is left over is said to be. */
export function chooseColumns(table: Table, answers: StationAnswers, problems: ProblemList): ChosenColumn[] {
  refuseStrangers(table, answers, problems);
  const drafts = table.columns.map((column, index) => saidOf(column, index, answers, problems));
  const best = new Map<string, Draft>();
  // An amount before a counter before a rate; then what the user said; then what has a unit.
  const worth = ({ role, basis, unit }: Draft) =>
    (basis === "user" ? 100 : 0) +
    (isWeatherRole(role) && RAIN_ROLES.includes(role) ? 10 * (3 - RAIN_ROLES.indexOf(role)) : 0) +
    (unit === null ? 0 : 1);
  for (const draft of drafts) {
    if (draft.role === "ignored") continue;
    const key = isWeatherRole(draft.role) ? group(draft.role) : draft.role;
    const before = best.get(key);
    if (before === undefined || worth(draft) > worth(before)) best.set(key, draft);
  }
  return drafts.map(({ name, index, role, unit, basis, why }): ChosenColumn => {
    if (role === "ignored") return { name, index, role, unit: null, basis, why };
    const key = isWeatherRole(role) ? group(role) : role;
    const taken = best.get(key);
    if (taken?.index === index) return { name, index, role, unit, basis, why };
    return {
      name,
      index,
      role: "ignored",
      unit: null,
      basis,
      why: `${taken?.name ?? "another column"} is read for it`,
    };
  });
}

/** Units that the numbers themselves prove: a humidity that never passes 1 is a fraction, and so on. */
export function unitOfData(
  kind: UnitKind,
  values: readonly number[],
): { readonly unit: StationUnit; readonly why: string } | null {
  const found = (key: string, why: string) => {
    const unit = unitOfKey(kind, key);
    return unit === null ? null : { unit, why };
  };
  if (values.length === 0) return null;
  let most = Number.NEGATIVE_INFINITY;
  let least = Number.POSITIVE_INFINITY;
  for (const value of values) {
    most = Math.max(most, value);
    least = Math.min(least, value);
  }
  if (kind === "humidity")
    return most <= 1.05
      ? found("fraction", `never above ${most}: a fraction`)
      : most > 5
        ? found("pct", `up to ${most}: per cent`)
        : null;
  if (kind === "pressure") {
    if (least > 450 && most < 1100) return found("hPa", `${least} to ${most}`);
    if (least > 45 && most < 110) return found("kPa", `${least} to ${most}`);
    if (least > 13 && most < 33) return found("inHg", `${least} to ${most}`);
    if (least > 45_000 && most < 110_000) return found("Pa", `${least} to ${most}`);
  }
  if (kind === "cloud" && most > 10 && most <= 100) return found("pct", `up to ${most}: per cent`);
  return null;
}

export function askUnit(column: Pick<ChosenColumn, "name">, kind: UnitKind, doubt = ""): CsvQuestion {
  const choices = STATION_UNITS[kind];
  return {
    id: `${UNIT}${column.name}`,
    column: column.name,
    ask: `In which unit is ${column.name}?${doubt === "" ? " The file does not say." : ` ${doubt}`}`,
    choices: choices.map(({ key }) => key),
  };
}

const NEEDS: readonly {
  readonly role: WeatherRole;
  readonly any: readonly WeatherRole[];
  readonly words: string;
}[] = [
  { role: "airTempC", any: ["airTempC"], words: "the air temperature" },
  {
    role: "relHumidityPct",
    any: ["relHumidityPct", "dewPointC", "vapourPressureKPa"],
    words: "the relative humidity (or the dew point)",
  },
  { role: "windSpeedMps", any: ["windSpeedMps"], words: "the mean wind" },
  { role: "solarWm2", any: ["solarWm2", "cloudPct"], words: "the solar radiation (or the cloud cover)" },
];

const MOST_CHOICES = 40;

/** What is needed and was not found: a question where another column could be it, else an error. */
export function askForMissing(columns: readonly ChosenColumn[], problems: ProblemList): CsvQuestion[] {
  const free = columns.filter(({ role }) => role === "ignored").map(({ name }) => name);
  return NEEDS.flatMap(({ role, any, words }) => {
    if (columns.some((column) => (any as readonly Role[]).includes(column.role))) return [];
    if (free.length === 0) {
      problems.error("missing-column", `The file has no column of ${words}, and it is needed`, {
        column: role,
      });
      return [];
    }
    const ask = `Which column holds ${words}?`;
    return [{ id: `${COLUMN}${role}`, column: role, ask, choices: free.slice(0, MOST_CHOICES) }];
  });
}
