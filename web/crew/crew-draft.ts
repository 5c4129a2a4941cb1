import type { CrewPlanRequest } from "../../model/crew/index.ts";

/** What a contractor has typed of a crew: everything of the question but the weather, which is the page's. */
export type CrewDraft = Omit<CrewPlanRequest, "sites" | "previous"> & {
  readonly siteNames: Readonly<Record<string, string>>;
  /** Stays with the plan, so that a calendar that took it in takes its changes too. */
  readonly planId: string;
};

export function draftOf(request: CrewPlanRequest, planId: string): CrewDraft {
  const { sites, previous, ...rest } = request;
  const siteNames = Object.fromEntries(Object.entries(sites).map(([id, { name }]) => [id, name ?? id]));
  return { ...rest, siteNames, planId };
}

/** The question in this weather: one weather for all sites. */
export function requestOf(
  draft: CrewDraft,
  series: CrewPlanRequest["sites"][string]["series"],
): CrewPlanRequest {
  const { siteNames, planId, ...rest } = draft;
  const sites = Object.fromEntries(Object.entries(siteNames).map(([id, name]) => [id, { name, series }]));
  return { ...rest, sites };
}

type Fields = Readonly<Record<string, unknown>>;
const isRecord = (value: unknown): value is Fields => typeof value === "object" && value !== null;
const withIds = (value: unknown) =>
  Array.isArray(value) &&
  value.length > 0 &&
  value.every((one) => isRecord(one) && typeof one.id === "string");

/** What the device kept, or null where it is none. The plan's own checks read the rest. */
export function readDraft(value: unknown): CrewDraft | null {
  if (!isRecord(value) || !isRecord(value.siteNames) || typeof value.planId !== "string") return null;
  if (!withIds(value.fields) || !withIds(value.machines) || !withIds(value.people)) return null;
  const whole = (value.fields as readonly Fields[]).every(
    ({ ops, swath, areaHa }) => Array.isArray(ops) && isRecord(swath) && typeof areaHa === "number",
  );
  return whole ? (value as unknown as CrewDraft) : null;
}
