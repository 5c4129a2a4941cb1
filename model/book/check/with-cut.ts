import type { Issue } from "../../limits.ts";
import type { Maybe } from "../farm-docs.ts";
import type { CutDoc } from "../work-docs.ts";
import { cutBegan } from "./cut.ts";
import { notBefore } from "./issue.ts";

/** What a document that names a cut says of both. */
export interface NamesCut {
  readonly fieldId?: Maybe<string>;
  /** Of a lot. */
  readonly storedUtc?: Maybe<string>;
}

/** A lot, a reading or a forecast beside the cut that it names: on its field, and stored after it was cut. */
export function withCutIssues({ fieldId, storedUtc }: NamesCut, cut: CutDoc): Issue[] {
  const message = `doc.fieldId: got "${fieldId}", must be the field of its cut, "${cut.fieldId}", or left out`;
  return [
    ...(fieldId && fieldId !== cut.fieldId ? [{ path: "doc.fieldId", code: "not-of-its-cut", message }] : []),
    ...notBefore({ path: "storedUtc", utc: storedUtc }, cutBegan(cut), "it was cut"),
  ];
}
