import { useState } from "preact/hooks";
import {
  CREW_LIMITS,
  CREW_OPS,
  type CrewFieldRequest,
  type CrewMachineRequest,
  type CrewPersonRequest,
  MACHINE_KINDS,
} from "../../model/crew/index.ts";
import { CROPS } from "../../model/drying/index.ts";
import { SWATH_ROUTES } from "../../model/harvest/index.ts";
import type { Limit } from "../../model/limits.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { fromPage, type Quantity, toPage, unitName } from "../format/units.ts";
import { SelectField, TextField } from "../panel/Field.tsx";
import { OP_LABELS } from "./crew-chart.ts";
import type { CrewDraft } from "./crew-draft.ts";

export interface CrewFieldsProps {
  readonly draft: CrewDraft;
  readonly manner: Manner;
  readonly onDraft: (draft: CrewDraft) => void;
}

const worded = <T extends string>(keys: readonly T[]) =>
  keys.map((key) => [key, key.replaceAll("-", " ")] as const);

interface NumberProps {
  readonly label: string;
  readonly value: number | undefined;
  readonly limit: Limit;
  readonly quantity?: Quantity;
  readonly manner: Manner;
  readonly onValue: (value: number) => void;
}

/** A number in the units of the page; what is wrong with it stands below it and the plan keeps the last good one. */
function NumberField({ label, value, limit, quantity, manner, onValue }: NumberProps) {
  const { units } = manner;
  const shown = (model: number) =>
    quantity === undefined ? model : Number(toPage(model, quantity, units).toFixed(2));
  const [text, setText] = useState<string | null>(null);
  const read = (typed: string) => {
    const page = typed.trim() === "" ? Number.NaN : Number(typed.replace(",", "."));
    return quantity === undefined ? page : fromPage(page, quantity, units);
  };
  const good = (model: number) =>
    (limit.minExcluded ? model > limit.min : model >= limit.min) && model <= limit.max;
  const [least, most] = [shown(limit.min), shown(limit.max)].map((one) => numberText(one, 1, manner));
  return (
    <TextField
      label={label}
      unit={quantity && unitName(quantity, units)}
      value={text ?? (value === undefined ? "" : String(shown(value)))}
      error={
        text !== null && !good(read(text))
          ? `must be ${limit.minExcluded ? "above" : "from"} ${least} to ${most}`
          : undefined
      }
      onText={(typed) => {
        setText(typed);
        const model = read(typed);
        if (good(model)) onValue(model);
      }}
    />
  );
}

/** Fields, machines, people and the drive: what the plan is made of. */
export function CrewFields({ draft, manner, onDraft }: CrewFieldsProps) {
  const field = (i: number, change: Partial<CrewFieldRequest>) =>
    onDraft({ ...draft, fields: draft.fields.map((one, at) => (at === i ? { ...one, ...change } : one)) });
  const machine = (i: number, change: Partial<CrewMachineRequest>) =>
    onDraft({
      ...draft,
      machines: draft.machines.map((one, at) => (at === i ? { ...one, ...change } : one)),
    });
  const person = (i: number, change: Partial<CrewPersonRequest>) =>
    onDraft({ ...draft, people: draft.people.map((one, at) => (at === i ? { ...one, ...change } : one)) });
  const fresh = (kind: string, list: readonly { readonly id: string }[]) => {
    let n = list.length + 1;
    while (list.some(({ id }) => id === `${kind}-${n}`)) n++;
    return `${kind}-${n}`;
  };
  const sites = Object.entries(draft.siteNames);
  const clockError = (text: string) =>
    /^([01]\d|2[0-3]):[0-5]\d$|^24:00$/.test(text) ? undefined : "must be a time of day as 07:00";
  return (
    <div class="crew-edit">
      <h3>Fields</h3>
      {draft.fields.map((one, i) => (
        <fieldset key={one.id} class="crew-item">
          <legend>{one.name || one.id}</legend>
          <TextField
            label="Name"
            numeric={false}
            value={one.name ?? ""}
            error={one.name === "" ? "needs a name" : undefined}
            onText={(name) => field(i, { name })}
          />
          <TextField
            label="Customer"
            numeric={false}
            value={one.customer ?? ""}
            error={undefined}
            onText={(text) => field(i, { customer: text === "" ? null : text })}
          />
          <SelectField
            label="Place"
            value={one.siteId}
            choices={sites}
            onChoice={(siteId) => field(i, { siteId })}
          />
          <NumberField
            label="Area"
            quantity="area"
            value={one.areaHa}
            limit={CREW_LIMITS.areaHa}
            manner={manner}
            onValue={(areaHa) => field(i, { areaHa })}
          />
          <SelectField
            label="Crop"
            value={one.swath.crop}
            choices={worded(CROPS)}
            onChoice={(crop) => field(i, { swath: { ...one.swath, crop } })}
          />
          <SelectField
            label="Route"
            value={one.route}
            choices={worded(SWATH_ROUTES)}
            onChoice={(route) => field(i, { route })}
          />
          <NumberField
            label="Value, money per hectare"
            value={one.valuePerHa}
            limit={CREW_LIMITS.valuePerHa}
            manner={manner}
            onValue={(valuePerHa) => field(i, { valuePerHa })}
          />
          <NumberField
            label="Priority, times the value"
            value={one.priority ?? 1}
            limit={CREW_LIMITS.priority}
            manner={manner}
            onValue={(priority) => field(i, { priority })}
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
                    field(i, { ops: CREW_OPS.filter((key) => (key === op ? on : one.ops.includes(key))) });
                  }}
                />{" "}
                {OP_LABELS[op]}
              </label>
            ))}
          </fieldset>
          <button
            type="button"
            class="aid"
            disabled={draft.fields.length < 2}
            onClick={() => onDraft({ ...draft, fields: draft.fields.filter((_, at) => at !== i) })}
          >
            Take out
          </button>
        </fieldset>
      ))}
      <button
        type="button"
        class="aid"
        onClick={() => {
          const like = draft.fields[0];
          if (like === undefined) return;
          const id = fresh("field", draft.fields);
          onDraft({
            ...draft,
            fields: [...draft.fields, { ...like, id, name: "New field", customer: null }],
          });
        }}
      >
        Add a field
      </button>
      <h3>Machines</h3>
      {draft.machines.map((one, i) => (
        <fieldset key={one.id} class="crew-item">
          <legend>{one.name || one.id}</legend>
          <TextField
            label="Name"
            numeric={false}
            value={one.name ?? ""}
            error={one.name === "" ? "needs a name" : undefined}
            onText={(name) => machine(i, { name })}
          />
          <SelectField
            label="Kind"
            value={one.kind}
            choices={worded(MACHINE_KINDS)}
            onChoice={(kind) => machine(i, { kind })}
          />
          <NumberField
            label="Rate"
            quantity="areaRate"
            value={one.haPerH}
            limit={CREW_LIMITS.haPerH}
            manner={manner}
            onValue={(haPerH) => machine(i, { haPerH })}
          />
          <button
            type="button"
            class="aid"
            disabled={draft.machines.length < 2}
            onClick={() => onDraft({ ...draft, machines: draft.machines.filter((_, at) => at !== i) })}
          >
            Take out
          </button>
        </fieldset>
      ))}
      <button
        type="button"
        class="aid"
        onClick={() =>
          onDraft({
            ...draft,
            machines: [
              ...draft.machines,
              { id: fresh("machine", draft.machines), name: "New mower", kind: "mower" },
            ],
          })
        }
      >
        Add a machine
      </button>
      <h3>People</h3>
      {draft.people.map((one, i) => (
        <fieldset key={one.id} class="crew-item">
          <legend>{one.name || one.id}</legend>
          <TextField
            label="Name"
            numeric={false}
            value={one.name ?? ""}
            error={one.name === "" ? "needs a name" : undefined}
            onText={(name) => person(i, { name })}
          />
          <TextField
            label="From"
            value={one.from}
            error={clockError(one.from)}
            onText={(from) => person(i, { from })}
          />
          <TextField
            label="To"
            value={one.to}
            error={clockError(one.to)}
            onText={(to) => person(i, { to })}
          />
          <button
            type="button"
            class="aid"
            disabled={draft.people.length < 2}
            onClick={() => onDraft({ ...draft, people: draft.people.filter((_, at) => at !== i) })}
          >
            Take out
          </button>
        </fieldset>
      ))}
      <button
        type="button"
        class="aid"
        onClick={() =>
          onDraft({
            ...draft,
            people: [
              ...draft.people,
              { id: fresh("person", draft.people), name: "New driver", from: "07:00", to: "20:00" },
            ],
          })
        }
      >
        Add a person
      </button>
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
  const named = [...draft.fields, ...draft.machines, ...draft.people].every(({ name }) => name !== "");
  const clocks = draft.people.every(({ from, to }) =>
    [from, to].every((text) => /^([01]\d|2[0-3]):[0-5]\d$|^24:00$/.test(text)),
  );
  return !named || !clocks || draft.fields.some(({ ops }) => ops[0] !== "mow");
}
