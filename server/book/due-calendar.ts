import { TZDate } from "@date-fns/tz";
import ical, { ICalCalendarMethod, ICalEventRepeatingFreq, ICalEventStatus } from "ical-generator";
import type { DueItem } from "../../model/book/index.ts";
import { DAY_MS, HOUR_MS, localDayKey } from "../../model/weather/clock.ts";
import { timeZoneComponent } from "../crew/time-zone-component.ts";

/** A due hour is shown as an hour: long enough to be seen. */
const SHOWN_MS = HOUR_MS;

/** A day without hours, as a date whose UTC parts are that day. */
const dateOf = (day: string, offsetDays = 0) =>
  new Date(Date.parse(`${day}T00:00:00Z`) + offsetDays * DAY_MS);

/**
 * What is due as iCalendar (RFC 5545): times on each farm's clock with its VTIMEZONE, a day without an hour as a day,
 * UID of the work and its entry, SEQUENCE of the entry's revision; planned work tentative because weather decides.
 *
 * @param stampUtcMs when the calendar is written
 */
export function dueCalendar(items: readonly DueItem[], stampUtcMs: number): string {
  const calendar = ical({
    name: "Swathclock: what is due",
    prodId: { company: "Swathclock", product: "Book", language: "EN" },
    method: ICalCalendarMethod.PUBLISH,
  });
  const times = [stampUtcMs, ...items.map(({ atUtc }) => Date.parse(atUtc))];
  const last = Math.max(...times, ...items.map(({ repeat }) => (repeat ? Date.parse(repeat.untilUtc) : 0)));
  // The generator is asked once for each zone that an event names.
  calendar.timezone({
    name: null,
    generator: (zone: string) => timeZoneComponent(zone, Math.min(...times), last),
  });
  const stamp = new Date(stampUtcMs);
  for (const item of items) {
    const { atUtc, byUtc, day, allDay, timeZone, repeat } = item;
    const firstMs = Date.parse(atUtc);
    // Of what was to be done every few hours the times that are past are no use in a calendar, but for the last.
    const passed = repeat === null ? 0 : Math.floor((stampUtcMs - firstMs) / (repeat.everyH * HOUR_MS));
    const startMs = firstMs + Math.max(0, passed) * (repeat?.everyH ?? 0) * HOUR_MS;
    const inUtc = timeZone === "UTC";
    const at = (ms: number) => (inUtc ? new Date(ms) : new TZDate(ms, timeZone));
    // What goes on for weeks stands on all its days, the last one too.
    const lastDay =
      item.work === "keep-out" && byUtc !== null ? localDayKey(Date.parse(byUtc), timeZone) : day;
    const span = allDay
      ? { start: dateOf(day), end: dateOf(lastDay, 1), allDay: true }
      : { start: at(startMs), end: at(startMs + SHOWN_MS), ...(inUtc ? {} : { timezone: timeZone }) };
    const note = [item.text, item.source === null ? null : `Source: ${item.source}`];
    calendar.createEvent({
      ...span,
      id: `${encodeURIComponent(item.id)}@swathclock`,
      sequence: item.revision,
      stamp,
      lastModified: stamp,
      summary: item.title,
      description: note.filter((line) => line !== null).join("\n"),
      status: ["probe", "result", "keep-out"].includes(item.work)
        ? ICalEventStatus.CONFIRMED
        : ICalEventStatus.TENTATIVE,
      ...(repeat === null
        ? {}
        : {
            repeating: {
              freq: ICalEventRepeatingFreq.HOURLY,
              interval: repeat.everyH,
              until: new Date(Math.max(startMs, Date.parse(repeat.untilUtc))),
            },
          }),
    });
  }
  // The library writes no line end after the last line; the standard wants one.
  return `${calendar.toString().replace(/(\r\n)*$/, "")}\r\n`;
}
