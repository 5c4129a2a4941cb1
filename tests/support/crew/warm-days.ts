import type { CrewPlanRequest } from "../../../model/crew/index.ts";

type Series = CrewPlanRequest["sites"][string]["series"];

/** Warmer by so much, damper by so much, and the hour of a shower if any: of each member. */
const MEMBERS = [
  { warmerC: 1.29, damperPct: 5.8, showerAt: 62 },
  { warmerC: 0.07, damperPct: -3, showerAt: null },
  { warmerC: -1.09, damperPct: 0.1, showerAt: 75 },
  { warmerC: -1.02, damperPct: -5.7, showerAt: 66 },
] as const;

/** Four warm July days in Dakota, each like the last, in four members of which three bring a shower on the third; invented. */
export function warmDays(): Series {
  const hours = Array.from({ length: 96 }, (_, i) => i);
  const day = (i: number) => Math.cos((2 * Math.PI * (i - 15)) / 24);
  const sun = (i: number) => Math.max(0, Math.sin((Math.PI * ((i % 24) - 5.5)) / 15.5));
  const member = ({ warmerC, damperPct, showerAt }: (typeof MEMBERS)[number]) => ({
    model: null,
    airTempC: hours.map((i) => 26 + 7 * day(i) + warmerC),
    relHumidityPct: hours.map((i) => Math.max(25, 48 - 30 * day(i) + damperPct)),
    windSpeedMps: hours.map((i) => 2.5 + 1.2 * day(i)),
    solarWm2: hours.map((i) => 900 * sun(i)),
    rainMm: hours.map((i) => (i === showerAt ? 3 : 0)),
  });
  const { model: _, ...main } = member({ warmerC: 0, damperPct: 0, showerAt: null } as never);
  return {
    site: { latitude: 44.3, longitude: -98.2, elevationM: 400, timeZone: "America/Chicago" },
    windHeightM: 2,
    origin: "upload",
    hours: {
      startUtc: hours.map((i) => new Date(Date.UTC(2026, 6, 1, 5 + i)).toISOString().replace(".000", "")),
      ...main,
      cloudPct: hours.map(() => 20),
    },
    members: MEMBERS.map(member),
  } as Series;
}
