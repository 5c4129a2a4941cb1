import { BASES, IONS, QUICK_TESTS, SAMPLED_AS } from "../../model/feed/index.ts";
import { ROUTES } from "../../model/harvest/keys.ts";
import { ROUTE_LABELS } from "../format/words.ts";
import { SelectField, TextField } from "../panel/Field.tsx";
import type { FeedErrors, FeedTexts } from "./feed-inputs.ts";

const NOT_SAID = ["", "not said"] as const;
export const ION_CHOICES = [NOT_SAID, ...IONS.map((ion) => [ion, ion] as const)] as const;
const UNIT_CHOICES = [
  ["ppm", "ppm (mg/kg)"],
  ["pct", "%"],
] as const;
const BASIS_WORDS = { dm: "dry matter", "as-fed": "as fed" } as const;
const BASIS_CHOICES = [NOT_SAID, ...BASES.map((key) => [key, BASIS_WORDS[key]] as const)] as const;
const QUICK_CHOICES = [["", "none"], ...QUICK_TESTS.map((key) => [key, key] as const)] as const;
const SAMPLED_WORDS = { standing: "standing crop", stored: "in store", "fed-out": "as fed out" } as const;
const ROUTE_CHOICES = [["", "not said"], ...ROUTES.map((key) => [key, ROUTE_LABELS[key]] as const)] as const;

export interface FeedFieldsProps {
  readonly feed: FeedTexts;
  /** "kg" or "lb". */
  readonly massUnit: string;
  readonly errors: FeedErrors;
  readonly wanted: boolean;
  readonly onChange: (change: Partial<FeedTexts>) => void;
  readonly onWanted: () => void;
  /** Absent where it is the last one. */
  readonly onRemove?: (() => void) | undefined;
}

/** One feed: what it is, how much of it, and the laboratory's result with its three labels. */
export function FeedFields({
  massUnit,
  feed,
  errors,
  wanted,
  onChange,
  onWanted,
  onRemove,
}: FeedFieldsProps) {
  const error = (field: string) => errors[`feed ${feed.key} ${field}`];
  return (
    <fieldset class="feed-fields">
      <legend>{feed.id || "A feed"}</legend>
      <TextField
        label="Name"
        numeric={false}
        value={feed.id}
        error={error("id")}
        onText={(id) => onChange({ id })}
      />
      <div class="pair">
        <TextField
          label="Dry matter"
          unit="%"
          value={feed.dmPct}
          error={error("dmPct")}
          onText={(dmPct) => onChange({ dmPct })}
        />
        <TextField
          label="A day"
          unit={`${massUnit} dry matter`}
          value={feed.dmKg}
          error={error("dmKg")}
          onText={(dmKg) => onChange({ dmKg })}
        />
      </div>
      <div class="pair">
        <TextField
          label="Nitrate"
          value={feed.nitrate}
          error={error("nitrate")}
          onText={(nitrate) => onChange({ nitrate })}
        />
        <SelectField
          label="as"
          value={feed.ion}
          choices={ION_CHOICES}
          onChoice={(ion) => onChange({ ion })}
        />
      </div>
      <div class="pair">
        <SelectField
          label="Unit"
          value={feed.unit}
          choices={UNIT_CHOICES}
          onChoice={(unit) => onChange({ unit })}
        />
        <SelectField
          label="Basis"
          value={feed.basis}
          choices={BASIS_CHOICES}
          onChoice={(basis) => onChange({ basis })}
        />
      </div>
      <div class="pair">
        <SelectField
          label="Made by"
          value={feed.route}
          choices={ROUTE_CHOICES}
          onChoice={(route) => onChange({ route })}
        />
        <SelectField
          label="Sampled"
          value={feed.sampled}
          choices={SAMPLED_AS.map((key) => [key, SAMPLED_WORDS[key]] as const)}
          onChoice={(sampled) => onChange({ sampled })}
        />
      </div>
      <details>
        <summary>Field test, prussic acid</summary>
        <SelectField
          label="Field test (instead of a number)"
          value={feed.quickTest}
          choices={QUICK_CHOICES}
          onChoice={(quickTest) => onChange({ quickTest })}
        />
        <div class="pair">
          <TextField
            label="Prussic acid"
            unit="ppm"
            value={feed.hcnPpm}
            error={error("hcnPpm")}
            onText={(hcnPpm) => onChange({ hcnPpm })}
          />
          <SelectField
            label="Its basis"
            value={feed.hcnBasis}
            choices={BASIS_CHOICES}
            onChoice={(hcnBasis) => onChange({ hcnBasis })}
          />
        </div>
      </details>
      <label class="check">
        <input type="radio" name="feed-wanted" checked={wanted} onChange={onWanted} />
        Largest share of this one
      </label>
      {onRemove ? (
        <button type="button" class="aid" onClick={onRemove}>
          Take {feed.id || "it"} out
        </button>
      ) : null}
    </fieldset>
  );
}
