import { CREW_DEFAULTS, CREW_LIMITS, CREW_OPS, type CrewFieldRequest } from "../../model/crew/index.ts";
import {
  CONDITIONINGS,
  CROP_CATALOGUE,
  CROPS,
  SOIL_CLASSES,
  SWATH_LIMITS,
} from "../../model/drying/index.ts";
import type { Issue, Limit } from "../../model/limits.ts";
import { type Manner, numberText, quantityText } from "../format/manner.ts";
import { ErrorText, SelectField, TextField } from "../panel/Field.tsx";
import { lengthError } from "../state/names.ts";
import { OP_LABELS } from "./crew-chart.ts";
import { issueAt } from "./draft-issues.ts";
import { MomentField } from "./MomentField.tsx";
import { NumberField } from "./NumberField.tsx";
import { usualSwathRoutes, withCrop, withRoute } from "./with-crop.ts";

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

/** How the crop is cut and lies; moisture and stubble follow the crop until they are set. */
function Swath({ field, manner, change }: Pick<FieldProps, "field" | "manner" | "change">) {
  const { swath } = field;
  const put = (part: Partial<CrewFieldRequest["swath"]>) => change({ swath: { ...swath, ...part } });
  return (
    <details class="crew-swath">
      <summary>Swath: {swathWords(swath, manner)}</summary>
      <div class="crew-item">
        <NumberField
          label="Yield, dry matter"
          quantity="dryMatterYield"
          value={swath.dryMatterTHa}
          limit={SWATH_LIMITS.dryMatterTHa}
          manner={manner}
          onValue={(dryMatterTHa) => put({ dryMatterTHa })}
        />
        <NumberField
          label="Moisture at cutting, %"
          value={Math.round(swath.initialMoistureWb * 1000) / 10}
          limit={inPct(SWATH_LIMITS.initialMoistureWb)}
          manner={manner}
          onValue={(pct) => put({ initialMoistureWb: pct / 100 })}
        />
        <NumberField
          label="Swath covers, % of the cut"
          value={Math.round(swath.coveredFraction * 1000) / 10}
          limit={inPct(SWATH_LIMITS.coveredFraction)}
          manner={manner}
          onValue={(pct) => put({ coveredFraction: pct / 100 })}
        />
        <NumberField
          label="Stubble"
          quantity="stubble"
          value={swath.stubbleCm}
          limit={SWATH_LIMITS.stubbleCm}
          manner={manner}
          onValue={(stubbleCm) => put({ stubbleCm })}
        />
        <SelectField
          label="Conditioning"
          value={swath.conditioning}
          choices={worded(CONDITIONINGS)}
          onChoice={(conditioning) => put({ conditioning })}
        />
        <SelectField
          label="Ground"
          value={swath.soil}
          choices={worded(SOIL_CLASSES)}
          onChoice={(soil) => put({ soil })}
        />
      </div>
    </details>
  );
}

/** "3 t/ha of dry matter, cut at 78 %, 8 cm stubble". */
function swathWords(swath: CrewFieldRequest["swath"], manner: Manner): string {
  const { dryMatterTHa, initialMoistureWb, stubbleCm } = swath;
  const yieldText = quantityText(dryMatterTHa, "dryMatterYield", manner);
  return `${yieldText}, cut at ${numberText(initialMoistureWb * 100, 1, manner)} %, stubble ${quantityText(stubbleCm, "stubble", manner)}`;
}

/** A limit of a share, of the same in per cent. */
function inPct(limit: Limit): Limit {
  const times = (value: number) => Math.round(value * 1e4) / 100;
  return { ...limit, unit: "%", min: times(limit.min), max: times(limit.max) };
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
        choices={CROPS.map((crop) => [crop, CROP_CATALOGUE[crop].label] as const)}
        onChoice={(crop) => change(withCrop(field, crop))}
      />
      <SelectField
        label="Route"
        value={field.route}
        choices={worded([...new Set([...usualSwathRoutes(field.swath.crop), field.route])])}
        onChoice={(route) => change(withRoute(field, route))}
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
      <Swath field={field} manner={manner} change={change} />
    </>
  );
}
