/** A moment on the farm's clock, by the runtime's own calendar and none of the model's. */
export interface FarmTime {
  /** "2026-07-01" */
  readonly day: string;
  /** Minutes since local midnight as the clock shows them. */
  readonly minute: number;
}

export function farmTime(utc: string, timeZone: string): FarmTime {
  const format = new Intl.DateTimeFormat("en-CA", {
    timeZone,
    hourCycle: "h23",
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
    hour: "2-digit",
    minute: "2-digit",
  });
  const parts = Object.fromEntries(
    format.formatToParts(new Date(utc)).map(({ type, value }) => [type, value]),
  );
  return {
    day: `${parts.year}-${parts.month}-${parts.day}`,
    minute: Number(parts.hour) * 60 + Number(parts.minute),
  };
}

/** "07:30" as minutes since midnight. */
export function minuteOf(clock: string): number {
  const [hours = 0, minutes = 0] = clock.split(":").map(Number);
  return hours * 60 + minutes;
}
