import { checkCrewRequest } from "../../model/crew/index.ts";
import type { Issue } from "../../model/limits.ts";
import type { WeatherSeries } from "../../model/weather/index.ts";
import { readClock } from "../state/clock-text.ts";
import { lengthError } from "../state/names.ts";
import { type CrewDraft, requestOf } from "./crew-draft.ts";
import { nameError } from "./ItemList.tsx";

/** What is wrong with a time of day; the end of a day may be 24:00. */
export function clockError(text: string, end: boolean): string | undefined {
  return readClock(text, end) === null ? `Got "${text}", must be a time of day as 07:00.` : undefined;
}

/** Everything that the plan's own checks say of a crew before it is sent. */
export function draftIssues(draft: CrewDraft, series: WeatherSeries): readonly Issue[] {
  return checkCrewRequest(requestOf(draft, series, null));
}

/** What is said of one part, without its path: "Got [rake, bale], must begin with mow ...". */
export function issueAt(issues: readonly Issue[], path: string): string | undefined {
  const found = issues.find((issue) => issue.path === path || issue.path.startsWith(`${path}[`));
  if (found === undefined) return undefined;
  const text = found.message.replace(`${found.path}: `, "");
  return `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

/** A draft that cannot be sent as it is. */
export function draftFaulty(draft: CrewDraft, issues: readonly Issue[]): boolean {
  const names = [
    ...[...draft.fields, ...draft.machines, ...draft.people].map(({ name }) => nameError(name)),
    ...Object.values(draft.siteNames).map((name) => nameError(name)),
    ...draft.fields.map(({ customer }) => lengthError(customer ?? "")),
  ];
  const clocks = draft.people.flatMap(({ from, to }) => [clockError(from, false), clockError(to, true)]);
  return issues.length > 0 || [...names, ...clocks].some((error) => error !== undefined);
}
