import type { CrewPlanAnswer } from "../../model/crew/index.ts";

/** How those were called that are not in the lists any more, by their keys: plans given out still name them. */
export interface GoneNames {
  readonly fields: Readonly<Record<string, string>>;
  readonly machines: Readonly<Record<string, string>>;
  readonly people: Readonly<Record<string, string>>;
  /** Whose the fields were, as far as they were somebody's: who waits for a visit is told that it falls out. */
  readonly customers?: Readonly<Record<string, string>>;
}

interface Listed {
  readonly id: string;
  readonly name?: string | null | undefined;
  readonly customer?: string | null | undefined;
}

interface Lists {
  readonly fields: readonly Listed[];
  readonly machines: readonly Listed[];
  readonly people: readonly Listed[];
  readonly gone?: GoneNames | undefined;
}

const KINDS = ["fields", "machines", "people"] as const;

export const NO_LONGER = "no longer in the list";

/** The next lists with the names of all that left them; who is there again is not gone. */
export function withGone<T extends Lists>(before: Lists, next: T): T {
  const of = (kind: (typeof KINDS)[number]) => {
    const there = (id: string) => next[kind].some((one) => one.id === id);
    const left = before[kind].map(({ id, name }) => [id, name || id] as const);
    const known = [...Object.entries(before.gone?.[kind] ?? {}), ...left];
    return Object.fromEntries(known.filter(([id]) => !there(id)));
  };
  const fields = of("fields");
  const customerOf = (id: string) =>
    before.fields.find((one) => one.id === id)?.customer || before.gone?.customers?.[id];
  const customers = Object.fromEntries(
    Object.keys(fields).flatMap((id) => {
      const customer = customerOf(id);
      return customer ? [[id, customer]] : [];
    }),
  );
  const gone: GoneNames = {
    fields,
    machines: of("machines"),
    people: of("people"),
    ...(Object.keys(customers).length > 0 ? { customers } : {}),
  };
  const any = KINDS.some((kind) => Object.keys(gone[kind]).length > 0);
  const { gone: _, ...rest } = next;
  return (any ? { ...rest, gone } : rest) as T;
}

/** Keys of those that a plan names and the list does not hold. */
export function goneOf(names: Readonly<Record<string, string>>, list: readonly Listed[]): readonly string[] {
  return Object.keys(names).filter((key) => !list.some(({ id }) => id === key));
}

/** The plan as it leaves the page: visits that fall out with a field still carry its name. */
export function withGoneFields(plan: CrewPlanAnswer, gone: GoneNames | undefined): CrewPlanAnswer {
  if (gone === undefined) return plan;
  return { ...plan, names: { ...plan.names, fields: { ...gone.fields, ...plan.names.fields } } };
}

/** The plan with everybody by the name that people know, and those who left marked as that. */
export function withKnownNames(plan: CrewPlanAnswer, lists: Lists): CrewPlanAnswer {
  const of = (kind: (typeof KINDS)[number]) =>
    Object.fromEntries(
      Object.entries(plan.names[kind]).map(([id, name]) => {
        const there = lists[kind].some((one) => one.id === id);
        return [id, there ? name : `${lists.gone?.[kind][id] ?? name} (${NO_LONGER})`];
      }),
    );
  const names = { fields: of("fields"), machines: of("machines"), people: of("people") };
  return { ...plan, names: { ...plan.names, ...names } };
}
