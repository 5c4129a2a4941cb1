import { type CrewJobAnswer, dayTime, spanTime } from "../../model/crew/index.ts";
import type { Manner } from "../format/manner.ts";

type Reader = Pick<Manner, "zone" | "hour12">;

/** "Thu 2 Jul 9 am". */
export function visitTime(utc: string, { zone, hour12 }: Reader): string {
  return dayTime(Date.parse(utc), { timeZone: zone, hour12 });
}

/** "Thu 2 Jul 9 am to noon": a plan may look past the week, so the day alone is not enough. */
export function visitSpan(
  { startUtc, endUtc }: Pick<CrewJobAnswer, "startUtc" | "endUtc">,
  { zone, hour12 }: Reader,
): string {
  return spanTime(Date.parse(startUtc), Date.parse(endUtc), { timeZone: zone, hour12 });
}
