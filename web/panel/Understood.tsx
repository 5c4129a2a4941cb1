import type { WeatherFile } from "../../model/weather/station/index.ts";
import { isWeatherRole, ROLES, type Role, UNIT_KIND_OF } from "../../model/weather/station/roles.ts";
import { STATION_UNITS } from "../../model/weather/station/units.ts";
import { COLUMN_WORDS } from "../../model/weather/telling.ts";
import { SCROLLS } from "../board/BoardTable.tsx";
import { Fold } from "../fold/Fold.tsx";
import { fullText } from "../format/farm-time.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { type Quantity, toPage, type Units, unitName } from "../format/units.ts";
import "./understood.css";

const ROLE_WORDS: Readonly<Record<Role, string>> = {
  dateTime: "date and time",
  date: "date",
  time: "time of day",
  year: "year",
  month: "month",
  day: "day",
  dayOfYear: "day of the year",
  hour: "hour",
  minute: "minute",
  airTempC: "air temperature",
  dewPointC: "dew point",
  relHumidityPct: "relative humidity",
  vapourPressureKPa: "vapour pressure",
  windSpeedMps: "mean wind",
  solarWm2: "solar radiation",
  rainMm: "rain of the row",
  rainTotalMm: "rain counter",
  rainRateMmH: "rate of rain",
  cloudPct: "cloud cover",
  pressureHpa: "air pressure",
  ignored: "not used",
};

/** Unit of a converted value: the model's own. */
function ownUnit(name: string): string {
  const role = ROLES.find((key) => key === name);
  return role !== undefined && isWeatherRole(role) ? (STATION_UNITS[UNIT_KIND_OF[role]][0]?.label ?? "") : "";
}

/** What a converted value measures, where its unit goes with the system. */
const QUANTITY_OF: Readonly<Partial<Record<Role, Quantity>>> = {
  airTempC: "temperature",
  dewPointC: "temperature",
  windSpeedMps: "wind",
  rainMm: "rain",
  rainTotalMm: "rain",
  rainRateMmH: "rain",
};
/** Decimals with which a converted value is shown, so that a tenth of the file is still seen. */
const DECIMALS = 2;

/** "°F", "in/h": the unit of a column of the preview. */
export function previewUnit(name: string, units: Units): string {
  const quantity = quantityOf(name);
  if (quantity === undefined || units === "metric") return ownUnit(name);
  return `${unitName(quantity, units)}${name === "rainRateMmH" ? "/h" : ""}`;
}

/** A converted value in the units and numbers of the page. */
export function previewText(
  name: string,
  value: number,
  { units, locale }: Pick<Manner, "units" | "locale">,
): string {
  const quantity = quantityOf(name);
  return numberText(quantity === undefined ? value : toPage(value, quantity, units), DECIMALS, { locale });
}

function quantityOf(name: string): Quantity | undefined {
  const role = ROLES.find((key) => key === name);
  return role && QUANTITY_OF[role];
}

const BASIS_WORDS = { header: "by the header", user: "by you", data: "by the data" } as const;

const CLOCK_CHOICES = [
  ["utc", "UTC"],
  ["standard", "local standard time all year"],
  ["daylight", "local clock with daylight saving"],
] as const;
const LABEL_CHOICES = [
  ["start", "the start of its time"],
  ["end", "the end of its time"],
  ["middle", "the middle of its time"],
  ["instant", "its very moment"],
] as const;

export interface UnderstoodProps {
  readonly report: WeatherFile;
  readonly answers: Readonly<Record<string, string>>;
  readonly hour12?: boolean;
  readonly speech?: Pick<Manner, "units" | "locale">;
  readonly onAnswer: (id: string, choice: string) => void;
}

const METRIC = { units: "metric", locale: "en" } as const;

type ColumnOfReport = WeatherFile["understood"][number];

function roleOf({ as }: ColumnOfReport): Role {
  return ROLES.find((role) => role === as) ?? "ignored";
}

/** The rest of a select's life is the browser's: a native one is the best on a phone. */
function Choice({
  label,
  value,
  choices,
  onChoice,
}: {
  readonly label: string;
  readonly value: string;
  readonly choices: readonly (readonly [string, string])[];
  readonly onChoice: (value: string) => void;
}) {
  const known = choices.some(([key]) => key === value);
  return (
    <select aria-label={label} value={value} onChange={(event) => onChoice(event.currentTarget.value)}>
      {known ? null : <option value={value}>{value === "" ? "?" : value}</option>}
      {choices.map(([key, text]) => (
        <option key={key} value={key}>
          {text}
        </option>
      ))}
    </select>
  );
}

function ColumnRow({
  column,
  answers,
  onAnswer,
}: Omit<UnderstoodProps, "report" | "hour12" | "speech"> & { readonly column: ColumnOfReport }) {
  const role = roleOf(column);
  const name = column.column;
  const units = isWeatherRole(role) ? STATION_UNITS[UNIT_KIND_OF[role]] : [];
  const unit = answers[`unit.${name}`] ?? units.find(({ label }) => label === column.unit)?.key ?? "";
  return (
    <tr class={role === "ignored" ? "unused" : undefined}>
      <th scope="row">{name}</th>
      <td>
        <Choice
          label={`What ${name} is`}
          value={role}
          choices={ROLES.map((key) => [key, ROLE_WORDS[key]] as const)}
          onChoice={(value) => onAnswer(`as.${name}`, value)}
        />
      </td>
      <td>
        {isWeatherRole(role) ? (
          <Choice
            label={`Unit of ${name}`}
            value={unit}
            choices={units.map(({ key, label }) => [key, label] as const)}
            onChoice={(value) => onAnswer(`unit.${name}`, value)}
          />
        ) : null}
      </td>
      <td class="why">
        {BASIS_WORDS[column.basis]}
        {column.why ? `: ${column.why}` : ""}
      </td>
    </tr>
  );
}

function Preview({
  report,
  speech,
}: {
  readonly report: WeatherFile;
  readonly speech: Pick<Manner, "units" | "locale">;
}) {
  const names = Object.keys(report.preview[0]?.values ?? {});
  if (names.length === 0) return null;
  return (
    <>
      <h4>First rows, converted</h4>
      <section class="table-scroll" aria-label="First rows, converted" {...SCROLLS}>
        <table class="board-table">
          <thead>
            <tr>
              <th scope="col">Row</th>
              <th scope="col">Its clock</th>
              {names.map((name) => (
                <th scope="col" key={name}>
                  {ROLE_WORDS[ROLES.find((role) => role === name) ?? "ignored"]},{" "}
                  {previewUnit(name, speech.units)}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {report.preview.map(({ row, wall, values }) => (
              <tr key={row}>
                <td class="number">{row}</td>
                <td>{wall}</td>
                {names.map((name) => (
                  <td class="number" key={name}>
                    {typeof values[name] === "number"
                      ? previewText(name, values[name], speech)
                      : (values[name] ?? "missing")}
                  </td>
                ))}
              </tr>
            ))}
          </tbody>
        </table>
      </section>
    </>
  );
}

/** What was understood of a file: the clock, each column with its unit and why, the first rows, the gaps. All can be corrected. */
export function Understood({ report, answers, hour12 = false, speech = METRIC, onAnswer }: UnderstoodProps) {
  const { clock, counts, gaps, understood } = report;
  if (report.preview.length === 0 && understood.length === 0) return null;
  const time = understood.find((column) => !isWeatherRole(roleOf(column)) && roleOf(column) !== "ignored");
  const clockKey =
    clock.dst === null ? "" : clock.timeZone === "UTC" ? "utc" : clock.dst ? "daylight" : "standard";
  const used = understood.filter((column) => isWeatherRole(roleOf(column))).length;
  return (
    <section class="understood" aria-label="What was understood">
      <h3>What was understood</h3>
      <p>
        {counts.rows} rows, {used} columns of weather
        {counts.hours > 0 ? `, ${counts.hours} hours` : ""}
        {counts.missing > 0 ? `, ${counts.missing} of them with something missing` : ""}.
      </p>
      <div class="pair">
        <div>
          <span class="asked">The times are</span>
          <Choice
            label="Clock of the file"
            value={clockKey}
            choices={CLOCK_CHOICES}
            onChoice={(value) => onAnswer("clock", value)}
          />
        </div>
        <div>
          <span class="asked">A row is named by</span>
          <Choice
            label="Label of a row"
            value={clock.label ?? ""}
            choices={LABEL_CHOICES}
            onChoice={(value) => onAnswer("label", value)}
          />
        </div>
      </div>
      {time?.why ? (
        <p class="hint">
          {BASIS_WORDS[time.basis]}: {time.why}.
        </p>
      ) : null}
      <div class="table-scroll">
        <table class="columns-table">
          <thead>
            <tr>
              <th scope="col">Column</th>
              <th scope="col">is</th>
              <th scope="col">in</th>
              <th scope="col">why</th>
            </tr>
          </thead>
          <tbody>
            {understood.map((column) => (
              <ColumnRow key={column.column} column={column} answers={answers} onAnswer={onAnswer} />
            ))}
          </tbody>
        </table>
      </div>
      <Preview report={report} speech={speech} />
      {gaps.length > 0 ? (
        <Fold
          summary={`${gaps.length === 30 ? "30 or more" : gaps.length} ${gaps.length === 1 ? "gap" : "gaps"}`}
        >
          {() => (
            <ul>
              {gaps.map(({ fromUtc, hours, columns }) => (
                <li key={fromUtc}>
                  {fullText(fromUtc, { zone: clock.timeZone, hour12 })}: {hours} h without{" "}
                  {columns.map((name) => COLUMN_WORDS[name] ?? name).join(", ")}
                </li>
              ))}
            </ul>
          )}
        </Fold>
      ) : null}
    </section>
  );
}
