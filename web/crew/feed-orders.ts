import { type CrewFieldRequest, type CrewPlanAnswer, feedWarnings } from "../../model/crew/index.ts";
import { someWords } from "../../model/crew/words.ts";
import { feedTests } from "../../model/harvest/hazards/feed-tests.ts";
import { beforeCutting, type Caution, routeCaution } from "../cautions/cautions.ts";
import { listText } from "../format/words.ts";

/** The board's cautions of crop and route, said of the fields of a crew: each once, with the fields that it is of. */

export type CautionedField = Pick<CrewFieldRequest, "id" | "swath" | "route">;
export type CautionedPlan = Pick<CrewPlanAnswer, "cautions" | "names">;

/** Which box stands at which caution of the answer. */
const BOX_OF = {
  "before-cutting": ({ swath }: CautionedField) => beforeCutting(swath.crop),
  feed: ({ swath, route }: CautionedField) => routeCaution(route, swath.crop),
} as const;
export type BoxCode = keyof typeof BOX_OF;

/** Those of the fields that the answer has such a caution of, in groups of one kind, by their names. */
function groupsOf<T>(
  { cautions, names }: CautionedPlan,
  fields: readonly CautionedField[],
  code: BoxCode,
  kindOf: (field: CautionedField) => { readonly key: string; readonly kind: T },
): readonly { readonly kind: T; readonly of: string }[] {
  const groups = new Map<string, { readonly kind: T; readonly of: string[] }>();
  for (const field of fields) {
    if (!cautions.some((one) => one.fieldId === field.id && one.code === code)) continue;
    const { key, kind } = kindOf(field);
    const group = groups.get(key) ?? { kind, of: [] };
    group.of.push(names.fields[field.id] ?? field.id);
    groups.set(key, group);
  }
  return [...groups.values()].map(({ kind, of }) => ({ kind, of: someWords(of) }));
}

/** "Before cutting: Creek field and Hilltop", with its orders and their reasons. */
export function feedBoxes(
  plan: CautionedPlan,
  fields: readonly CautionedField[],
  code: BoxCode,
): readonly Caution[] {
  const boxes = groupsOf(plan, fields, code, (field) => {
    const kind = BOX_OF[code](field);
    return { key: [kind.title, ...kind.orders].join("|"), kind };
  });
  return boxes.map(({ kind, of }) => ({ ...kind, title: `${kind.title}: ${of}` }));
}

/** Waits and doubts that mowings lie in: each once, with its fields. */
export function hazardLines(plan: CautionedPlan, fields: readonly CautionedField[]): readonly string[] {
  const isOne = (fieldId: string) => fields.some(({ id }) => id === fieldId);
  return feedWarnings(plan, ({ code, fieldId }) => code === "hazard" && isOne(fieldId));
}

/** The same for a sheet of paper, each in a line of short orders, and what a laboratory is asked for. */
export function feedLines(
  plan: CautionedPlan,
  fields: readonly CautionedField[],
  code: BoxCode,
): readonly string[] {
  const tests = groupsOf(plan, fields, code, ({ swath }) => {
    const kind = listText(feedTests(swath.crop));
    return { key: kind, kind };
  });
  return [
    ...(code === "before-cutting" ? hazardLines(plan, fields) : []),
    ...feedBoxes(plan, fields, code).map(({ title, orders }) => `${title}. ${orders.join(" ")}`),
    ...(code === "before-cutting" ? [] : tests)
      .filter(({ kind }) => kind !== "")
      .map(({ kind, of }) => `Before feeding: ${of} to be tested for ${kind}.`),
  ];
}
