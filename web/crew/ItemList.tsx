import type { ComponentChildren } from "preact";
import { useState } from "preact/hooks";
import { Fold } from "../fold/Fold.tsx";
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
  /** One line on an item: what it is, while it is folded. */
  readonly line: (one: T) => string;
  /** Whether something of it is wrong: said while it is folded too. */
  readonly wrong?: (i: number) => boolean;
  /** The fields of one item below its name. */
  readonly rest: (one: T, change: (part: Partial<T>) => void, i: number) => ComponentChildren;
  /** Keys of items taken out before: a new one gets none of them, since plans given out still name those. */
  readonly taken?: readonly string[];
  /** Why an item cannot be taken out; undefined = it can. */
  readonly needed?: (one: T) => string | undefined;
}

/** Items with names, each folded to one line, to be changed or taken out, and a way to add one; the last one stays. */
export function ItemList<T extends Named>(props: ListProps<T>) {
  const { title, kind, items, onItems, added, locale, line, wrong, rest, needed, taken = [] } = props;
  const [open, setOpen] = useState<ReadonlySet<string>>(new Set());
  const put = (id: string, isOpen: boolean) =>
    setOpen((before) => new Set(isOpen ? [...before, id] : [...before].filter((one) => one !== id)));
  return (
    <>
      <h3>{title}</h3>
      {items.map((one, i) => {
        const change = (part: Partial<T>) =>
          onItems(items.map((other) => (other === one ? { ...one, ...part } : other)));
        const why = needed?.(one) ?? (items.length < 2 ? `The plan needs a ${kind}.` : undefined);
        return (
          <Fold
            key={one.id}
            class="crew-one"
            opened={{ open: open.has(one.id), onOpen: (isOpen) => put(one.id, isOpen) }}
            summary={
              <span class="crew-line">
                <b>{one.name || one.id}</b>
                <small>{line(one)}</small>
                {nameError(one.name, locale) !== undefined || wrong?.(i) ? (
                  <small class="field-error">Something is wrong: look inside.</small>
                ) : null}
              </span>
            }
          >
            {() => (
              <fieldset class="crew-item" aria-label={one.name || one.id}>
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
            )}
          </Fold>
        );
      })}
      <button
        type="button"
        class="aid"
        onClick={() => {
          if (added === undefined) return;
          const id = fresh(kind, [...items.map((one) => one.id), ...taken]);
          put(id, true);
          onItems([...items, { ...added, id } as T]);
        }}
      >
        Add a {kind}
      </button>
    </>
  );
}
