import { CREW_DEFAULTS, CREW_LIMITS, CREW_OPS, type CrewFieldRequest } from "../../model/crew/index.ts";
import { CROPS } from "../../model/drying/index.ts";
import { SWATH_ROUTES } from "../../model/harvest/index.ts";
import type { Issue } from "../../model/limits.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { ErrorText, SelectField, TextField } from "../panel/Field.tsx";
import { lengthError } from "../state/names.ts";
import { OP_LABELS } from "./crew-chart.ts";
import { issueAt } from "./draft-issues.ts";
import { MomentField } from "./MomentField.tsx";
import { NumberField } from "./NumberField.tsx";

interface FieldProps {
  readonly field: CrewFieldRequest;
  /** "fields[2]": how the checks name it. */
  readonly path: string;
  readonly issues: readonly Issue[];
  readonly sites: readonly (readonly [string, string])[];
  readonly zone: string;
  readonly manner: Manner;
  readonly change: (part: Partial<CrewFieldRequest>) => void;
}

export const worded = <T extends string>(keys: readonly T[]) =>
  keys.map((key) => [key, key.replaceAll("-", " ")] as const);

/** The works of a field in their order; what is wrong with them stands under them. */
function Works({ field, path, issues, change }: Pick<FieldProps, "field" | "path" | "issues" | "change">) {
  const wrong = issueAt(issues, `${path}.ops`);
  const errorId = `crew-works-${field.id}`;
  return (
    <fieldset class={wrong ? "crew-ops wrong" : "crew-ops"} aria-describedby={wrong ? errorId : undefined}>
      <legend>Work</legend>
      {CREW_OPS.map((op) => (
        <label key={op}>
          <input
            type="checkbox"
            checked={field.ops.includes(op)}
            onChange={({ currentTarget: { checked } }) =>
              change({ ops: CREW_OPS.filter((key) => (key === op ? checked : field.ops.includes(key))) })
            }
          />{" "}
          {OP_LABELS[op]}
        </label>
      ))}
      {wrong ? <ErrorText id={errorId} text={wrong} /> : null}
    </fieldset>
  );
}

/** What is asked of one field, its name apart. */
export function FieldParts({ field, path, issues, sites, zone, manner, change }: FieldProps) {
  const sharePct = numberText(CREW_DEFAULTS.latenessShareADay.value * 100, 1, manner);
  const without = <K extends keyof CrewFieldRequest>(key: K) => change({ [key]: undefined });
  return (
    <>
      <TextField
        label="Customer"
        numeric={false}
        value={field.customer ?? ""}
        error={lengthError(field.customer ?? "", manner.locale)}
        onText={(text) => change({ customer: text === "" ? null : text })}
      />
      <SelectField
        label="Place"
        value={field.siteId}
        choices={sites}
        onChoice={(siteId) => change({ siteId })}
      />
      <NumberField
        label="Area"
        quantity="area"
        value={field.areaHa}
        limit={CREW_LIMITS.areaHa}
        manner={manner}
        onValue={(areaHa) => change({ areaHa })}
      />
      <SelectField
        label="Crop"
        value={field.swath.crop}
        choices={worded(CROPS)}
        onChoice={(crop) => change({ swath: { ...field.swath, crop } })}
      />
      <SelectField
        label="Route"
        value={field.route}
        choices={worded(SWATH_ROUTES)}
        onChoice={(route) => change({ route })}
      />
      <NumberField
        label="Value, money"
        quantity="perHa"
        value={field.valuePerHa}
        limit={CREW_LIMITS.valuePerHa}
        manner={manner}
        onValue={(valuePerHa) => change({ valuePerHa })}
      />
      <NumberField
        label="Priority, times the value"
        value={field.priority ?? 1}
        limit={CREW_LIMITS.priority}
        manner={manner}
        onValue={(priority) => change({ priority })}
      />
      <MomentField
        label="Due, if promised"
        utc={field.dueUtc ?? null}
        zone={zone}
        onUtc={(dueUtc) => change({ dueUtc })}
      />
      <NumberField
        label="Each day late costs, money"
        value={field.latenessPerDay}
        limit={CREW_LIMITS.latenessPerDay}
        manner={manner}
        hint={`empty = ${sharePct} % of the field's value`}
        onEmpty={() => without("latenessPerDay")}
        onValue={(latenessPerDay) => change({ latenessPerDay })}
      />
      <Works field={field} path={path} issues={issues} change={change} />
    </>
  );
}
