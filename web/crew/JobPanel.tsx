import {
  type CrewJobAnswer,
  type CrewPlanAnswer,
  type CrewPlanRequest,
  machinesFor,
} from "../../model/crew/index.ts";
import type { Manner } from "../format/manner.ts";
import { SelectField } from "../panel/Field.tsx";
import type { Caution } from "./all-faults.ts";
import { faultWords } from "./Cautions.tsx";
import { OP_LABELS } from "./crew-chart.ts";
import { FeedCautions } from "./FeedCautions.tsx";
import type { CautionedField } from "./feed-orders.ts";
import type { Hands } from "./held-works.ts";
import { isBegun, jobKey } from "./job-key.ts";
import { visitSpan } from "./visit-span.ts";
import { WorkLine } from "./WorkLine.tsx";

/** By which the panel is found from the chart. */
export const PANEL_ID = "crew-panel";

type Crew = Pick<CrewPlanRequest, "machines" | "people">;

export interface JobPanelProps {
  readonly job: CrewJobAnswer | null;
  /** All works that can be chosen, where their chart blocks are too small for a thumb. */
  readonly jobs: readonly CrewJobAnswer[];
  readonly onChoose: (key: string | null) => void;
  readonly plan: CrewPlanAnswer;
  /** Whose machines and people the plan is of; null = they are not known. */
  readonly crew: Crew | null;
  /** What speaks against works that were moved; of works that are held it stands above the chart. */
  readonly faults: readonly Caution[];
  /** Works were moved and have been checked. */
  readonly checked: boolean;
  readonly moved: boolean;
  /** Works that are held at their hour, by their keys. */
  readonly held: ReadonlySet<string>;
  /** Works that were moved or given to others and are not held: planning again gives them other hours and hands. */
  readonly loose: number;
  readonly busy: boolean;
  /** Whose crops the works are of. */
  readonly fields: readonly CautionedField[];
  readonly manner: Manner;
  /** "rain in 2 of 5 forecasts then", of the chosen work; null or absent = nothing is to be said of rain. */
  readonly rain?: string | null;
  readonly onMove: (job: CrewJobAnswer, byMs: number) => void;
  /** Gives a work to another machine or person. */
  readonly onHand: (job: CrewJobAnswer, hands: Hands) => void;
  readonly onHold: (job: CrewJobAnswer) => void;
  readonly onBack: () => void;
  readonly onReplan: () => void;
}

/** That planning again does not keep what was only moved or given to others. */
function looseWords(works: number): string {
  return works === 1
    ? "1 changed work is not held: it would be planned anew."
    : `${works} changed works are not held: they would be planned anew.`;
}

interface HandsOfProps extends Pick<JobPanelProps, "plan" | "onHand"> {
  readonly job: CrewJobAnswer;
  readonly crew: Crew;
}

/** Those that there are to choose from, whoever does the work among them. */
function choicesOf(
  ids: readonly string[],
  chosen: string,
  names: Readonly<Record<string, string>>,
): readonly (readonly [string, string])[] {
  return [...new Set([...ids, chosen])].map((id) => [id, names[id] ?? id]);
}

/** By which machine and whom the chosen work is done, where there are others who could. */
function HandsOf({ job, crew, plan, onHand }: HandsOfProps) {
  const { machines, people } = plan.names;
  const machineIds = machinesFor(crew.machines, job).map(({ id }) => id);
  const byMachine = choicesOf(machineIds, job.machineId, machines);
  const byPerson = choicesOf(
    crew.people.map(({ id }) => id),
    job.personId,
    people,
  );
  return (
    <div class="crew-hands">
      {byMachine.length < 2 ? null : (
        <SelectField
          label="Machine"
          value={job.machineId}
          choices={byMachine}
          onChoice={(machineId) => onHand(job, { machineId })}
        />
      )}
      {byPerson.length < 2 ? null : (
        <SelectField
          label="Who"
          value={job.personId}
          choices={byPerson}
          onChoice={(personId) => onHand(job, { personId })}
        />
      )}
    </div>
  );
}

/** What can be done with the chosen work, and what its place breaks: every drag has its buttons. */
export function JobPanel(props: JobPanelProps) {
  const { job, jobs, onChoose, plan, crew, faults, checked, moved, loose, busy, manner } = props;
  const { onMove, onHand, onHold, onBack, onReplan } = props;
  const slotMs = plan.slotMin * 60_000;
  const begun = job !== null && isBegun(job, plan.nowUtc);
  const held = job !== null && props.held.has(jobKey(job));
  return (
    <div class="crew-panel" id={PANEL_ID} tabIndex={-1}>
      <SelectField
        label="Work"
        value={job === null ? "" : jobKey(job)}
        choices={[
          ["", "none chosen"],
          ...jobs.map(
            (one) =>
              [
                jobKey(one),
                `${OP_LABELS[one.op]} ${plan.names.fields[one.fieldId] ?? one.fieldId}, ${visitSpan(one, manner)}`,
              ] as const,
          ),
        ]}
        onChoice={(key) => onChoose(key === "" ? null : key)}
      />
      {job === null ? (
        <p class="crew-note">
          Choose a work here or in the chart: drag it to another hour or onto another machine of its kind, or
          change it with the arrow keys or what stands here then. Each change is checked at once.
        </p>
      ) : (
        <>
          <WorkLine job={job} plan={plan} held={props.held} manner={manner} />
          {props.rain == null ? null : <p>Mind: {props.rain}.</p>}
        </>
      )}
      {job === null ? null : (
        <FeedCautions
          plan={plan}
          fields={props.fields.filter(({ id }) => id === job.fieldId)}
          op={job.op}
          manner={manner}
        />
      )}
      {job === null || begun || crew === null ? null : (
        <HandsOf job={job} crew={crew} plan={plan} onHand={onHand} />
      )}
      <div class="crew-buttons">
        {job === null || begun ? null : (
          <>
            <button type="button" class="aid" onClick={() => onMove(job, -slotMs)}>
              Earlier
            </button>
            <button type="button" class="aid" onClick={() => onMove(job, slotMs)}>
              Later
            </button>
            <button type="button" class="aid" aria-pressed={held} onClick={() => onHold(job)}>
              {held ? "Let it go" : "Hold it here"}
            </button>
          </>
        )}
        {moved ? (
          <button type="button" class="aid" onClick={onBack}>
            Put all back
          </button>
        ) : null}
        <button type="button" class="aid" disabled={busy} onClick={onReplan}>
          {props.held.size === 0 ? "Plan again" : "Plan again around what is held"}
        </button>
        {loose === 0 ? null : <span>{looseWords(loose)}</span>}
      </div>
      <div aria-live="polite" class="crew-faults">
        {checked && faults.length === 0 ? <p>This can be carried out.</p> : null}
        {moved && faults.length > 0 ? (
          <>
            <p>
              <b>That breaks something:</b>
            </p>
            <ul>
              {faults.map((fault) => (
                <li key={`${fault.fieldId}${fault.op}${fault.code}${fault.text}`}>
                  {faultWords(fault, manner)}
                </li>
              ))}
            </ul>
          </>
        ) : null}
      </div>
    </div>
  );
}
