import type { ComponentChildren } from "preact";
import { CREW_LIMITS, CREW_OPS, MACHINE_KINDS } from "../../model/crew/index.ts";
import { CROPS } from "../../model/drying/index.ts";
import { CLOCK_READING_OR_24, SWATH_ROUTES } from "../../model/harvest/index.ts";
import type { Manner } from "../format/manner.ts";
import { SelectField, TextField } from "../panel/Field.tsx";
import { lengthError } from "../state/names.ts";
import { OP_LABELS } from "./crew-chart.ts";
import type { CrewDraft } from "./crew-draft.ts";
import { NumberField } from "./NumberField.tsx";

export interface CrewFieldsProps {
  readonly draft: CrewDraft;
  readonly manner: Manner;
  readonly onDraft: (draft: CrewDraft) => void;
}

/** What is wrong with a time of day. */
const clockError = (text: string) =>
  CLOCK_READING_OR_24.test(text) ? undefined : `Got "${text}", must be a time of day as 07:00.`;

/** What is wrong with a name. */
function nameError(name: string | null | undefined, locale = "en"): string | undefined {
  return name === "" ? "Empty; a name is needed." : lengthError(name ?? "", locale);
}

const worded = <T extends string>(keys: readonly T[]) =>
  keys.map((key) => [key, key.replaceAll("-", " ")] as const);

interface Named {
  readonly id: string;
  readonly name?: string | null | undefined;
}

/** A key that no item of the list has yet. */
function fresh(kind: string, list: readonly Named[]): string {
  let n = list.length + 1;
  while (list.some(({ id }) => id === `${kind}-${n}`)) n++;
  return `${kind}-${n}`;
}

interface ListProps<T extends Named> {
  readonly title: string;
  /** "field": of a new item's key, and of the button that adds it. */
  readonly kind: string;
  readonly items: readonly T[];
  readonly onItems: (items: readonly T[]) => void;
  /** What a new item is, but for its key; undefined = none can be added. */
  readonly added: Omit<T, "id"> | undefined;
  readonly locale: string;
  /** The fields of one item below its name. */
  readonly rest: (one: T, change: (part: Partial<T>) => void) => ComponentChildren;
}

/** Items with names, each to be changed or taken out, and a way to add one; the last one stays. */
function ItemList<T extends Named>({ title, kind, items, onItems, added, locale, rest }: ListProps<T>) {
  return (
    <>
      <h3>{title}</h3>
      {items.map((one) => {
        const change = (part: Partial<T>) =>
          onItems(items.map((other) => (other === one ? { ...one, ...part } : other)));
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
            {rest(one, change)}
            <button
              type="button"
              class="aid"
              disabled={items.length < 2}
              onClick={() => onItems(items.filter((other) => other !== one))}
            >
              Take out
            </button>
          </fieldset>
        );
      })}
      <button
        type="button"
        class="aid"
        onClick={() => added && onItems([...items, { ...added, id: fresh(kind, items) } as T])}
      >
        Add a {kind}
      </button>
    </>
  );
}

/** Fields, machines, people and the drive: what the plan is made of. */
export function CrewFields({ draft, manner, onDraft }: CrewFieldsProps) {
  const sites = Object.entries(draft.siteNames);
  return (
    <div class="crew-edit">
      <ItemList
        title="Fields"
        locale={manner.locale}
        kind="field"
        items={draft.fields}
        onItems={(fields) => onDraft({ ...draft, fields })}
        added={draft.fields[0] && { ...draft.fields[0], name: "New field", customer: null }}
        rest={(one, change) => (
          <>
            <TextField
              label="Customer"
              numeric={false}
              value={one.customer ?? ""}
              error={lengthError(one.customer ?? "", manner.locale)}
              onText={(text) => change({ customer: text === "" ? null : text })}
            />
            <SelectField
              label="Place"
              value={one.siteId}
              choices={sites}
              onChoice={(siteId) => change({ siteId })}
            />
            <NumberField
              label="Area"
              quantity="area"
              value={one.areaHa}
              limit={CREW_LIMITS.areaHa}
              manner={manner}
              onValue={(areaHa) => change({ areaHa })}
            />
            <SelectField
              label="Crop"
              value={one.swath.crop}
              choices={worded(CROPS)}
              onChoice={(crop) => change({ swath: { ...one.swath, crop } })}
            />
            <SelectField
              label="Route"
              value={one.route}
              choices={worded(SWATH_ROUTES)}
              onChoice={(route) => change({ route })}
            />
            <NumberField
              label="Value, money"
              quantity="perHa"
              value={one.valuePerHa}
              limit={CREW_LIMITS.valuePerHa}
              manner={manner}
              onValue={(valuePerHa) => change({ valuePerHa })}
            />
            <NumberField
              label="Priority, times the value"
              value={one.priority ?? 1}
              limit={CREW_LIMITS.priority}
              manner={manner}
              onValue={(priority) => change({ priority })}
            />
            <fieldset class="crew-ops">
              <legend>Work</legend>
              {CREW_OPS.map((op) => (
                <label key={op}>
                  <input
                    type="checkbox"
                    checked={one.ops.includes(op)}
                    onChange={(event) => {
                      const on = event.currentTarget.checked;
                      change({ ops: CREW_OPS.filter((key) => (key === op ? on : one.ops.includes(key))) });
                    }}
                  />{" "}
                  {OP_LABELS[op]}
                </label>
              ))}
            </fieldset>
          </>
        )}
      />
      <ItemList
        title="Machines"
        locale={manner.locale}
        kind="machine"
        items={draft.machines}
        onItems={(machines) => onDraft({ ...draft, machines })}
        added={{ name: "New mower", kind: "mower" }}
        rest={(one, change) => (
          <>
            <SelectField
              label="Kind"
              value={one.kind}
              choices={worded(MACHINE_KINDS)}
              onChoice={(kind) => change({ kind })}
            />
            <NumberField
              label="Rate"
              quantity="areaRate"
              value={one.haPerH}
              limit={CREW_LIMITS.haPerH}
              manner={manner}
              onValue={(haPerH) => change({ haPerH })}
            />
          </>
        )}
      />
      <ItemList
        title="People"
        locale={manner.locale}
        kind="person"
        items={draft.people}
        onItems={(people) => onDraft({ ...draft, people })}
        added={{ name: "New driver", from: "07:00", to: "20:00" }}
        rest={(one, change) => (
          <>
            <TextField
              label="From"
              value={one.from}
              error={clockError(one.from)}
              onText={(from) => change({ from })}
            />
            <TextField label="To" value={one.to} error={clockError(one.to)} onText={(to) => change({ to })} />
          </>
        )}
      />
      <h3>Drive between the places</h3>
      {Object.entries(draft.travelMin ?? {}).map(([pair, minutes]) => (
        <NumberField
          key={pair}
          label={`${pair
            .split("|")
            .map((id) => draft.siteNames[id] ?? id)
            .join(" to ")}, minutes`}
          value={minutes}
          limit={CREW_LIMITS.travelMin}
          manner={manner}
          onValue={(value) => onDraft({ ...draft, travelMin: { ...draft.travelMin, [pair]: value } })}
        />
      ))}
    </div>
  );
}

/** A draft that cannot be sent as it is: names and hours that are wrong where they stand. */
export function draftFaulty(draft: CrewDraft): boolean {
  const named =
    [...draft.fields, ...draft.machines, ...draft.people].every(
      ({ name }) => nameError(name) === undefined,
    ) && draft.fields.every(({ customer }) => lengthError(customer ?? "") === undefined);
  const clocks = draft.people.every(({ from, to }) => [from, to].every((text) => !clockError(text)));
  return !named || !clocks || draft.fields.some(({ ops }) => ops[0] !== "mow");
}
