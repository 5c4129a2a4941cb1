import { LEAST_DAYS } from "../../model/odds/confidence.ts";

function counted(count: number, one: string, many: string): string {
  return `${count} ${count === 1 ? one : many}`;
}

/** What the record is of, and whether it says anything yet. */
export function recordSentence(counts: { readonly moisture: number; readonly days: number }): string {
  const { moisture, days } = counts;
  if (moisture === 0)
    return "No forecast has met a reading on this device yet. Take a reading of a swath under a forecast, and it is scored here.";
  const met = `${counted(moisture, "reading", "readings")} on ${counted(days, "day", "days")} met a forecast`;
  return days < LEAST_DAYS ? `${met}: too few to say. It takes ${LEAST_DAYS} days.` : `${met}.`;
}
