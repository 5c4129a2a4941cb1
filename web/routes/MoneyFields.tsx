import { useMemo } from "preact/hooks";
import { ROUTES } from "../../model/harvest/index.ts";
import { DEFAULT_PRICES } from "../../model/harvest/value/index.ts";
import type { Dispatch } from "../app/use-model.ts";
import { Fold } from "../fold/Fold.tsx";
import type { Manner } from "../format/manner.ts";
import { toPage, unitName } from "../format/units.ts";
import { ROUTE_LABELS, sentenceCase } from "../format/words.ts";
import { SelectField, TextField } from "../panel/Field.tsx";
import { fieldProps } from "../panel/panel-props.ts";
import {
  DROUGHTS,
  FEEDING_CHOICES,
  GRAZED_CHOICES,
  HAY_STORE_CHOICES,
  type Inputs,
  SILO_COVERS,
} from "../state/inputs.ts";
import { readInputs } from "../state/read-inputs.ts";
import { PRICE_FIELD, RATE_FIELDS, usualPrice } from "./money-defaults.ts";
import { usualText } from "./money-words.ts";

const DROUGHT_WORDS = { "not-said": "not said: counts as yes", yes: "yes", no: "no" } as const;
const spaced = (key: string) => key.replaceAll("-", " ");
const choicesOf = <T extends string>(keys: readonly T[]) => keys.map((key) => [key, spaced(key)] as const);

export interface MoneyFieldsProps {
  readonly inputs: Inputs;
  readonly dispatch: Dispatch;
  readonly manner: Manner;
}

/** Prices, stores and rates, each empty = the stated default; in any currency, kept by the device and in the link. */
export function MoneyFields({ inputs, dispatch, manner }: MoneyFieldsProps) {
  const read = useMemo(() => readInputs(inputs, manner), [inputs, manner]);
  const props = { inputs, read, dispatch, manner };
  const currency = inputs.texts.currency.text.trim();
  const usual = (value: number) => `empty = ${usualText(value, manner)}`;
  const on = ROUTES.filter((route) => inputs.routes[route].on);
  return (
    <div class="routes-side">
      <p>
        Empty fields have the stated default, a bare number in no currency: set your own. Each from 0 to 10
        million.
      </p>
      <fieldset class="side-form">
        <legend>Prices, {unitName("perT", manner.units)} of dry matter fed</legend>
        <TextField
          label="Currency"
          numeric={false}
          {...fieldProps(props, "currency")}
          hint="any, as EUR or $"
        />
        {on.map((route) => {
          const given = fieldProps(props, PRICE_FIELD[route]);
          return (
            <TextField
              key={route}
              label={sentenceCase(ROUTE_LABELS[route])}
              {...given}
              unit={`${currency} ${given.unit}`.trim()}
              hint={usual(toPage(usualPrice(route), "perT", manner.units))}
            />
          );
        })}
      </fieldset>
      <fieldset class="side-form">
        <legend>Stores and feeding</legend>
        <SelectField
          label="Hay is kept"
          value={inputs.hayStore}
          choices={choicesOf(HAY_STORE_CHOICES)}
          onChoice={(hayStore) => dispatch({ kind: "choice", choice: { hayStore } })}
        />
        <SelectField
          label="Bales are fed"
          value={inputs.hayFeeding}
          choices={choicesOf(FEEDING_CHOICES)}
          onChoice={(hayFeeding) => dispatch({ kind: "choice", choice: { hayFeeding } })}
        />
        <SelectField
          label="Bunker or pile"
          value={inputs.siloCover}
          choices={choicesOf(SILO_COVERS)}
          onChoice={(siloCover) => dispatch({ kind: "choice", choice: { siloCover } })}
        />
        <TextField label="Packing" {...fieldProps(props, "packingKgM3", "empty = by store; dry matter")} />
        <SelectField
          label="Grazed by"
          value={inputs.grazed}
          choices={choicesOf(GRAZED_CHOICES)}
          onChoice={(grazed) => dispatch({ kind: "choice", choice: { grazed } })}
        />
        <SelectField
          label="Short of water before this weather"
          value={inputs.drought}
          choices={DROUGHTS.map((key) => [key, DROUGHT_WORDS[key]] as const)}
          onChoice={(drought) => dispatch({ kind: "choice", choice: { drought } })}
        />
        <TextField label="New growth, sorghum types" {...fieldProps(props, "regrowthCm", "empty = none")} />
      </fieldset>
      <fieldset class="side-form">
        <legend>Rates</legend>
        {RATE_FIELDS.map(({ field, label, quantity, per, usual: value, also }) => {
          const given = fieldProps(props, field);
          const shown = quantity === null ? value : toPage(value, quantity, manner.units);
          return (
            <TextField
              key={field}
              label={label}
              {...given}
              unit={`${currency} ${given.unit ?? per}`.trim()}
              hint={
                also
                  ? `${usual(shown)} round, ${also.map(([of, one]) => `${usualText(one, manner)} ${of}`).join(", ")}`
                  : usual(shown)
              }
            />
          );
        })}
        <TextField label="Own people at the machine" {...fieldProps(props, "people", "empty = 1")} />
        <TextField
          label="Dry matter of a hay bale"
          {...fieldProps(props, "baleDmKg", "empty = usual of the package")}
        />
        <TextField
          label="Dry matter of a wrapped bale"
          {...fieldProps(props, "wrappedBaleDmKg", "empty = usual")}
        />
      </fieldset>
      <Fold class="board-details" summary="Where the defaults come from">
        {() => (
          <ul class="sources">
            {on.map((route) => (
              <li key={route}>
                {sentenceCase(ROUTE_LABELS[route])}: {DEFAULT_PRICES[route].source}
              </li>
            ))}
            {RATE_FIELDS.map(({ field, label, source }) => (
              <li key={field}>
                {label}: {source}
              </li>
            ))}
          </ul>
        )}
      </Fold>
    </div>
  );
}
