import type { CropKey } from "../../drying/keys.ts";
import type { RouteKey } from "../../harvest/keys.ts";
import { routeWaits } from "../../harvest/route-details/waits.ts";
import { DAY_MS } from "../../weather/clock.ts";
import { type DueItem, dayText, type Ground, itemOf } from "./item.ts";
import { DUE } from "./records.ts";

const WEEK_MS = 7 * DAY_MS;

/** Until when the gas of what was filled at a moment keeps people out; null for what makes none. */
export function gasUntil(route: RouteKey, crop: CropKey, filledMs: number) {
  const gas = routeWaits(route, crop).find(({ what }) => what === "silo-gas");
  if (!gas || gas.amount === null) return null;
  return { untilMs: filledMs + gas.amount * WEEK_MS, text: gas.text, source: gas.source };
}

interface Filled {
  readonly name: string;
  readonly route: RouteKey;
  readonly crop: CropKey;
  readonly filledMs: number;
}

/** Silo gas, told as long as it is there: from the first load on, since it is worst on the first days. */
export function keepOutItem({ name, route, crop, filledMs }: Filled, ground: Ground): DueItem[] {
  const gas = gasUntil(route, crop, filledMs);
  if (gas === null) return [];
  const peak = ground.nowUtcMs < filledMs + DUE.gasPeakDays.value * DAY_MS;
  const when = peak
    ? `It forms within hours and is worst on the first ${DUE.gasPeakDays.value} days: now.`
    : "It may be there unseen.";
  const text = `${gas.text} ${when} Keep out until ${dayText(gas.untilMs, ground.timeZone)}, children and animals too.`;
  return [
    itemOf(ground, {
      work: "keep-out",
      part: "",
      name,
      verb: "silo gas, keep out",
      text,
      atMs: filledMs,
      byMs: gas.untilMs,
      allDay: true,
      toDo: false,
      danger: "gas",
      source: gas.source,
    }),
  ];
}
