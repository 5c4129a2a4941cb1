import type { ComponentChildren } from "preact";
import { TextField } from "../panel/Field.tsx";
import { lengthError } from "../state/names.ts";

export interface Named {
  readonly id: string;
  readonly name?: string | null | undefined;
}

/** What is wrong with a name. */
export function nameError(name: string | null | undefined, locale = "en"): string | undefined {
  return name === "" ? "Empty; a name is needed." : lengthError(name ?? "", locale);
}

/** A key that no item of the list has yet. */
export function fresh(kind: string, ids: readonly string[]): string {
  let n = ids.length + 1;
  while (ids.includes(`${kind}-${n}`)) n++;
  return `${kind}-${n}`;
}

export interface ListProps<T extends Named> {
  readonly title: string;
  /** "field": of a new item's key, and of the button that adds it. */
  readonly kind: string;
  readonly items: readonly T[];
  readonly onItems: (items: readonly T[]) => void;
  /** What a new item is, but for its key; undefined = none can be added. */
  readonly added: Omit<T, "id"> | undefined;
  readonly locale: string;
  /** The fields of one item below its name. */
  readonly rest: (one: T, change: (part: Partial<T>) => void, i: number) => ComponentChildren;
  /** Keys of items taken out before: a new one gets none of them, since plans given out still name those. */
  readonly taken?: readonly string[];
  /** Why an item cannot be taken out; undefined = it can. */
  readonly needed?: (one: T) => string | undefined;
}

/** Items with names, each to be changed or taken out, and a way to add one; the last one stays. */
export function ItemList<T extends Named>(props: ListProps<T>) {
  const { title, kind, items, onItems, added, locale, rest, needed, taken = [] } = props;
  return (
    <>
      <h3>{title}</h3>
      {items.map((one, i) => {
        const change = (part: Partial<T>) =>
          onItems(items.map((other) => (other === one ? { ...one, ...part } : other)));
        const why = needed?.(one) ?? (items.length < 2 ? `The plan needs a ${kind}.` : undefined);
        return (
          <fieldset key={one.id} class="crew-item">
            <legend>{one.name || one.id}</legend>
            <TextField
              label="Name"
              numeric={false}
              value={one.name ?? ""}
              error={nameError(one.name, locale)}
              onText={(name) => change({ name } as Partial<T>)}
            />
            {rest(one, change, i)}
            <div class="crew-out">
              <button
                type="button"
                class="aid"
                disabled={why !== undefined}
                aria-label={`Take out ${one.name || one.id}`}
                onClick={() => onItems(items.filter((other) => other !== one))}
              >
                Take out
              </button>
              {why === undefined ? null : <p class="hint">{why}</p>}
            </div>
          </fieldset>
        );
      })}
      <button
        type="button"
        class="aid"
        onClick={() =>
          added &&
          onItems([
            ...items,
            {
              ...added,
              id: fresh(kind, [...items.map(({ id }) => id), ...taken]),
            } as T,
          ])
        }
      >
        Add a {kind}
      </button>
    </>
  );
}
