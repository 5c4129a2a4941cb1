import { useEffect } from "preact/hooks";
import { localParts } from "../../model/weather/clock.ts";
import { clockText, dayDateText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import type { Picture } from "../state/state.ts";
import { spanInWords, weatherAge } from "../states/age.ts";
import { pastOf } from "../states/past.ts";
import { providerLabel } from "../weather/forecast.ts";
import { SETS_MARGINS, setMargins } from "./paper.ts";
import "./print.css";

/** Where the weather is from, and how old it is. */
export function weatherLine({ source }: Picture, nowMs: number, manner: Manner): string {
  const { series } = source;
  const { hours } = weatherAge(series, nowMs);
  const age = hours === null ? "" : `, ${spanInWords(hours, manner)} old`;
  if (source.kind === "sample")
    return `Invented demonstration farm and weather: ${source.title.toLowerCase()}`;
  if (source.kind === "forecast") return `Forecast of ${providerLabel(series.provider)}${age}`;
  if (series.origin === "forecast") return `Forecast ${source.name}${age}`;
  const past = pastOf(source, nowMs);
  const ended = past?.level === "ended" ? `, ended ${dayDateText(past.endMs - 1, manner)}` : "";
  return `Own weather: ${source.name}${age}${ended}`;
}

export interface PrintProps {
  readonly picture: Picture;
  readonly nowMs: number;
  readonly manner: Manner;
}

/** What stands at the head and foot of every page: which field, when by the farm's clock, in which weather. */
export function headAndFoot({ picture, nowMs, manner }: PrintProps): readonly [string, string, string] {
  const { year } = localParts(nowMs, manner.zone);
  const when = `${dayDateText(nowMs, manner)} ${year} ${clockText(nowMs, manner)}, farm time (${manner.zone})`;
  return [`Swathclock, ${fieldOf(picture)}`, when, weatherLine(picture, nowMs, manner)];
}

const fieldOf = ({ inputs }: Picture) => inputs.fieldName.trim() || "The field";

/** Head and foot of every page, in its margins. Where the browser sets none: once, above the answer. */
export function PrintHead(props: PrintProps) {
  const [title, when, weather] = headAndFoot(props);
  const field = fieldOf(props.picture);
  useEffect(() => setMargins(title, when, weather), [title, when, weather]);
  if (SETS_MARGINS) return null;
  return (
    <p class="print-only print-head">
      <span>
        <strong>Swathclock</strong> {field}. {weather}.
      </span>
      <span>{when}</span>
    </p>
  );
}
