import type { Manner } from "../format/manner.ts";
import { type Quantity, unitName } from "../format/units.ts";
import { TextField } from "../panel/Field.tsx";
import { shownTyped, typedNow } from "../state/typed.ts";
import type { OwnField as FieldKey } from "./kept.ts";
import type { Own } from "./use-handling.ts";

export interface OwnFieldProps {
  readonly own: Own;
  readonly field: FieldKey;
  readonly label: string;
  /** Of the number; absent = the quantity's own on this page. */
  readonly unit?: string;
  readonly quantity?: Quantity;
  readonly hint: string;
  readonly error: string | undefined;
  readonly manner: Manner;
}

/** A number that the device keeps: what was typed stays, what is wrong with it stands below it. */
export function OwnField({ own, field, label, unit, quantity, hint, error, manner }: OwnFieldProps) {
  const { units, locale } = manner;
  return (
    <div class="handling-field">
      <TextField
        label={label}
        unit={unit ?? (quantity && unitName(quantity, units))}
        hint={hint}
        value={shownTyped(quantity ?? null, own.handling.texts[field], units, locale)}
        error={error}
        onText={(text) => own.onText(field, typedNow(text, manner))}
      />
    </div>
  );
}
