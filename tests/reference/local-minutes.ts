/** The farm's clock read minute by minute from the runtime's own calendar, slowly and without the model's clock. */
export interface LocalMinutes {
  readonly startMs: number;
  /** Local calendar day as days since 1970, and minute of the day, for each minute from `startMs`. */
  readonly day: Int32Array;
  readonly minute: Int32Array;
}

const known = new Map<string, LocalMinutes>();

export function localMinutes(zone: string, startMs: number, endMs: number): LocalMinutes {
  const key = `${zone} ${startMs} ${endMs}`;
  const found = known.get(key);
  if (found) return found;
  const format = new Intl.DateTimeFormat("en-CA", {
    timeZone: zone,
    year: "numeric",
    month: "2-digit",
    day: "2-digit",
    hour: "2-digit",
    minute: "2-digit",
    hourCycle: "h23",
  });
  const count = Math.round((endMs - startMs) / 60_000);
  const day = new Int32Array(count);
  const minute = new Int32Array(count);
  for (let i = 0; i < count; i++) {
    const part: Record<string, number> = {};
    for (const { type, value } of format.formatToParts(startMs + i * 60_000)) part[type] = Number(value);
    day[i] = Date.UTC(part.year ?? 0, (part.month ?? 1) - 1, part.day ?? 1) / 86_400_000;
    minute[i] = (part.hour ?? 0) * 60 + (part.minute ?? 0);
  }
  const table = { startMs, day, minute };
  known.set(key, table);
  return table;
}

/** Number of the working day that each minute belongs to (the day it began), or null outside working hours. */
export function workingDays(table: LocalMinutes, from: string, to: string): (number | null)[] {
  const minutes = (reading: string) => Number(reading.slice(0, 2)) * 60 + Number(reading.slice(3));
  const first = minutes(from);
  const last = minutes(to);
  return Array.from(table.minute, (minute, i) => {
    const today = table.day[i] as number;
    if (first < last) return minute >= first && minute < last ? today : null;
    if (minute >= first) return today;
    return minute < last ? today - 1 : null;
  });
}
