import { useState } from "preact/hooks";
import type { Limit } from "../../model/limits.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { fromPage, type Quantity, toPage, unitName } from "../format/units.ts";
import { TextField } from "../panel/Field.tsx";

interface NumberProps {
  readonly label: string;
  readonly value: number | undefined;
  readonly limit: Limit;
  readonly quantity?: Quantity;
  readonly manner: Manner;
  readonly onValue: (value: number) => void;
}

/** A number in the units of the page; what is wrong with it stands below it and the plan keeps the last good one. */
export function NumberField({ label, value, limit, quantity, manner, onValue }: NumberProps) {
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
