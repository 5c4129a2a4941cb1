import {
  CREW_LIMITS,
  type CrewMachineRequest,
  type CrewPersonRequest,
  MACHINE_KINDS,
  SLOT_MINUTES,
} from "../../model/crew/index.ts";
import type { Issue } from "../../model/limits.ts";
import type { Manner } from "../format/manner.ts";
import { SelectField, TextField } from "../panel/Field.tsx";
import { shownClock } from "../state/clock-text.ts";
import type { CrewDraft, SpotOfSite } from "./crew-draft.ts";
import { clockError, issueAt } from "./draft-issues.ts";
import { FieldParts, worded } from "./FieldParts.tsx";
import { ItemList } from "./ItemList.tsx";
import { fieldLine, machineLine, personLine } from "./item-lines.ts";
import { NumberField } from "./NumberField.tsx";
import { OffTimes } from "./OffTimes.tsx";
import { Places } from "./Places.tsx";

export interface CrewFieldsProps {
  readonly draft: CrewDraft;
  readonly issues: readonly Issue[];
  /** In the farm's zone. */
  readonly manner: Manner;
  readonly spot: SpotOfSite;
  /** Where a time off begins that is added. */
  readonly nowUtc: string;
  readonly onDraft: (draft: CrewDraft) => void;
}

function clockWrong(person: CrewPersonRequest | undefined): boolean {
  if (person === undefined) return false;
  return clockError(person.from, false) !== undefined || clockError(person.to, true) !== undefined;
}

/** Fields, machines, people, places and drives: what the plan is made of. */
export function CrewFields({ draft, issues, manner, spot, nowUtc, onDraft }: CrewFieldsProps) {
  const { zone, locale } = manner;
  const sites = Object.entries(draft.siteNames);
  const first = draft.fields[0];
  const isWrong = (list: string) => (i: number) =>
    issues.some(({ path }) => path.startsWith(`${list}[${i}]`));
  const slotMin = String(draft.slotMin ?? SLOT_MINUTES[0]);
  return (
    <div class="crew-edit">
      <ItemList
        title="Fields"
        locale={locale}
        kind="field"
        taken={Object.keys(draft.gone?.fields ?? {})}
        items={draft.fields}
        onItems={(fields) => onDraft({ ...draft, fields })}
        added={first && { ...first, name: "New field", customer: null }}
        line={(field) => fieldLine(field, draft.siteNames, manner)}
        wrong={isWrong("fields")}
        rest={(field, change, i) => (
          <FieldParts
            field={field}
            path={`fields[${i}]`}
            issues={issues}
            sites={sites}
            zone={zone}
            manner={manner}
            change={change}
          />
        )}
      />
      <ItemList<CrewMachineRequest>
        title="Machines"
        locale={locale}
        kind="machine"
        taken={Object.keys(draft.gone?.machines ?? {})}
        items={draft.machines}
        onItems={(machines) => onDraft({ ...draft, machines })}
        added={{ name: "New mower", kind: "mower" }}
        line={(machine) => machineLine(machine, manner)}
        wrong={isWrong("machines")}
        rest={(machine, change, i) => (
          <>
            <SelectField
              label="Kind"
              value={machine.kind}
              choices={worded(MACHINE_KINDS)}
              onChoice={(kind) => change({ kind })}
            />
            <NumberField
              label="Rate"
              quantity="areaRate"
              value={machine.haPerH}
              limit={CREW_LIMITS.haPerH}
              manner={manner}
              hint="empty = a typical machine"
              onEmpty={() => change({ haPerH: undefined })}
              onValue={(haPerH) => change({ haPerH })}
            />
            <OffTimes
              label="Broken or away"
              spans={machine.offUtc}
              zone={zone}
              nowUtc={nowUtc}
              error={(n) => issueAt(issues, `machines[${i}].offUtc[${n}].toUtc`)}
              onSpans={(offUtc) => change({ offUtc })}
            />
          </>
        )}
      />
      <ItemList<CrewPersonRequest>
        title="People"
        locale={locale}
        kind="person"
        taken={Object.keys(draft.gone?.people ?? {})}
        items={draft.people}
        onItems={(people) => onDraft({ ...draft, people })}
        added={{ name: "New driver", from: "07:00", to: "20:00" }}
        line={(person) => personLine(person, manner)}
        wrong={(i) => isWrong("people")(i) || clockWrong(draft.people[i])}
        rest={(person, change, i) => (
          <>
            <TextField
              label="From"
              value={person.from}
              error={clockError(person.from, false)}
              display={(text) => shownClock("workFrom", text, manner.hour12)}
              onText={(from) => change({ from })}
            />
            <TextField
              label="To"
              hint="earlier than the start = through midnight"
              value={person.to}
              error={clockError(person.to, true) ?? issueAt(issues, `people[${i}].to`)}
              display={(text) => shownClock("workTo", text, manner.hour12)}
              onText={(to) => change({ to })}
            />
            <OffTimes
              label="Absent"
              spans={person.offUtc}
              zone={zone}
              nowUtc={nowUtc}
              error={(n) => issueAt(issues, `people[${i}].offUtc[${n}].toUtc`)}
              onSpans={(offUtc) => change({ offUtc })}
            />
          </>
        )}
      />
      <Places draft={draft} manner={manner} spot={spot} onDraft={onDraft} />
      <SelectField
        label="Planned in steps of"
        value={slotMin}
        choices={SLOT_MINUTES.map((minutes) => [String(minutes), `${minutes} minutes`] as const)}
        onChoice={(key) => onDraft({ ...draft, slotMin: key === "30" ? 30 : 60 })}
      />
      {(draft.fixed ?? []).length === 0 ? null : (
        <p>
          {draft.fixed?.length === 1
            ? "1 work of the file is held and stays where it is."
            : `${draft.fixed?.length} works of the file are held and stay where they are.`}{" "}
          <button type="button" class="aid" onClick={() => onDraft({ ...draft, fixed: [] })}>
            Let them go
          </button>
        </p>
      )}
    </div>
  );
}
