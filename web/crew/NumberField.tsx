import { useState } from "preact/hooks";
import type { Limit } from "../../model/limits.ts";
import type { Manner } from "../format/manner.ts";
import { fromPage, type Quantity, toPage, type Units, unitName } from "../format/units.ts";
import { TextField } from "../panel/Field.tsx";
import { limitOnPage } from "../state/field-limits.ts";
import { editableText, readLimited } from "../state/numbers.ts";

interface NumberProps {
  readonly label: string;
  readonly value: number | undefined;
  readonly limit: Limit;
  readonly quantity?: Quantity;
  readonly manner: Manner;
  readonly onValue: (value: number) => void;
  readonly hint?: string;
  readonly decimals?: number;
  /** Where the field may be left empty. */
  readonly onEmpty?: () => void;
}

const DECIMALS = 2;

/** A number in the units of the page; what is wrong with it stands below it and the plan keeps the last good one. */
export function NumberField({
  label,
  value,
  limit,
  quantity,
  manner,
  onValue,
  hint,
  onEmpty,
  decimals = DECIMALS,
}: NumberProps) {
  const { units, locale } = manner;
  // What was typed stands as long as the units are those it was typed in.
  const [typed, setTyped] = useState<{ readonly text: string; readonly units: Units } | null>(null);
  const text = typed?.units === units ? typed.text : null;
  const shown = (model: number) =>
    editableText(quantity === undefined ? model : toPage(model, quantity, units), decimals, locale);
  const read = (of: string) => readLimited(of, limitOnPage(limit, quantity ?? null, units), locale);
  return (
    <TextField
      label={label}
      unit={quantity && unitName(quantity, units)}
      value={text ?? (value === undefined ? "" : shown(value))}
      hint={hint}
      error={text === null || (onEmpty && text.trim() === "") ? undefined : read(text).error}
      onText={(of) => {
        setTyped({ text: of, units });
        if (of.trim() === "") onEmpty?.();
        const page = read(of).value;
        if (page !== null) onValue(quantity === undefined ? page : fromPage(page, quantity, units));
      }}
    />
  );
}
