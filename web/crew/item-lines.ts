import type { CrewFieldRequest, CrewMachineRequest, CrewPersonRequest } from "../../model/crew/index.ts";
import { shortDateClockText } from "../format/farm-time.ts";
import { decimalMarkOf, type Manner, quantityText } from "../format/manner.ts";
import { shownClock } from "../state/clock-text.ts";
import type { SpotOfSite } from "./crew-draft.ts";

/** What stands under the name of a field, a machine, a person or a place while it is folded. */

const COORDINATE_DECIMALS = 4;

const words = (key: string) => key.replaceAll("-", " ");

/** "8 ha, dry hay, First customer, Home farm, due Thu 16 Jul 18:00". */
export function fieldLine(
  { areaHa, route, customer, siteId, dueUtc }: CrewFieldRequest,
  siteNames: Readonly<Record<string, string>>,
  manner: Manner,
): string {
  return [
    quantityText(areaHa, "area", manner),
    words(route),
    customer,
    siteNames[siteId] || siteId,
    dueUtc ? `due ${shortDateClockText(dueUtc, manner)}` : null,
  ]
    .filter(Boolean)
    .join(", ");
}

/** "baler, 4 ha/h, away once". */
export function machineLine({ kind, haPerH, offUtc }: CrewMachineRequest, manner: Manner): string {
  const rate = haPerH === undefined ? "typical rate" : quantityText(haPerH, "areaRate", manner);
  return [words(kind), rate, awayWords(offUtc?.length ?? 0)].filter(Boolean).join(", ");
}

/** "7 am to 8 pm". */
export function personLine({ from, to, offUtc }: CrewPersonRequest, { hour12 }: Manner): string {
  const hours = `${shownClock("workFrom", from, hour12)} to ${shownClock("workTo", to, hour12)}`;
  return [hours, awayWords(offUtc?.length ?? 0)].filter(Boolean).join(", ");
}

function awayWords(times: number): string | null {
  if (times === 0) return null;
  return times === 1 ? "away once" : `away ${times} times`;
}

/** "44.3000° N, 98.2000° W". */
export function coordinates({ latitude, longitude }: SpotOfSite, { locale }: Pick<Manner, "locale">): string {
  const part = (value: number, [plus, minus]: readonly [string, string]) => {
    const degrees = Math.abs(value).toFixed(COORDINATE_DECIMALS).replace(".", decimalMarkOf(locale));
    return `${degrees}° ${value < 0 ? minus : plus}`;
  };
  return `${part(latitude, ["N", "S"])}, ${part(longitude, ["E", "W"])}`;
}
