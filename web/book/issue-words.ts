import type { Issue } from "../../model/limits.ts";
import type { Clock } from "../format/farm-time.ts";
import { peoplesWords } from "../format/people-words.ts";
import { sentenceCase } from "../format/words.ts";
import type { ShownKind } from "./book-data.ts";
import { FORMS } from "./forms.ts";

/** What the book's checks and the server say of a document, as it stands on the page. */

/** "doc.sprays[1].intervalDays" as the form has it: "sprays[1].intervalDays". */
export const formPath = (path: string): string => path.replace(/^doc\.?/, "");

/** Without the path that it begins with: beside its field that would be said twice. */
export function besideField({ path, message }: Issue, clock: Clock): string {
  const head = [path, formPath(path)].find((one) => one !== "" && message.startsWith(`${one}: `));
  const rest = head === undefined ? message : message.slice(head.length + 2);
  const words = sentenceCase(peoplesWords(rest, clock));
  return /[.!?]$/.test(words) ? words : `${words}.`;
}

/** The label of the form's field at a path; null where the form does not ask for it. */
export function labelAt(kind: ShownKind, path: string): string | null {
  const [, list = "", place = "", key = ""] = /^(\w+)\[(\d+)\]\.(.+)$/.exec(path) ?? [];
  for (const spec of FORMS[kind]) {
    if (spec.type !== "list") {
      if (spec.path === path) return spec.label;
      continue;
    }
    const item = spec.path === list ? spec.item.find((one) => one.path === key) : undefined;
    if (item) return `${sentenceCase(spec.one)} ${Number(place) + 1}, ${item.label.toLowerCase()}`;
  }
  return null;
}

/** "Wrapped: got Wed 1 Jul, 12:00, must not be before it was stored, Thu 2 Jul, 12:00." */
export function issueWords(kind: ShownKind | undefined, issue: Issue, clock: Clock): string {
  const label = kind === undefined ? null : labelAt(kind, formPath(issue.path));
  // Where the form does not ask for it, its key says what it is.
  if (label === null) {
    const message = issue.message.replace(/^doc\./, "");
    return besideField({ ...issue, path: "", message }, clock);
  }
  const words = besideField(issue, clock);
  return `${label}: ${words.charAt(0).toLowerCase()}${words.slice(1)}`;
}
