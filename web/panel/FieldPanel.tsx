import { CROP_CATALOGUE, CROPS } from "../../model/drying/index.ts";
import type { PackageKey, StoreKey } from "../../model/harvest/index.ts";
import { defaultPackage, HARVEST_DEFAULTS, ROUTE_CATALOGUE, ROUTES } from "../../model/harvest/index.ts";
import { FIELD_LIMITS } from "../state/field-limits.ts";
import type { TextField as TextKey } from "../state/inputs.ts";
import { shownText } from "../state/typed.ts";
import { ErrorText, Group, rangeHint, SelectField, TextField } from "./Field.tsx";
import type { PanelProps } from "./Levers.tsx";

const PACKAGE_LABELS: Readonly<Record<PackageKey, string>> = {
  "small-square": "small square bales",
  round: "round bales",
  "large-square": "large square bales",
  "stalk-bale": "stalk bales",
};
const STORE_LABELS: Readonly<Record<StoreKey, string>> = {
  bunker: "bunker",
  pile: "pile",
  bag: "bag",
  stave: "stave silo",
  "oxygen-limiting": "oxygen-limiting silo",
};

/** Field, machines, hours and routes: what changes less often. */
export function FieldPanel({ inputs, read, dispatch }: PanelProps) {
  const { errors } = read;
  const text = (field: TextKey) => ({
    value: shownText(field, inputs.texts[field], "metric"),
    error: errors[field],
    onText: (typed: string) => dispatch({ kind: "text", field, text: typed }),
  });
  const rate = (field: "mowHaPerH" | "balerHaPerH" | "chopperHaPerH") => ({
    ...text(field),
    unit: "ha/h",
    placeholder: "typical",
    hint: `${rangeHint(FIELD_LIMITS[field])}; empty = a typical machine`,
  });
  return (
    <div class="groups">
      <Group title="Field and crop">
        <TextField
          label="Name of the field"
          numeric={false}
          value={inputs.fieldName}
          error={undefined}
          onText={(fieldName) => dispatch({ kind: "choice", choice: { fieldName } })}
        />
        <SelectField
          label="Crop"
          value={inputs.crop}
          choices={CROPS.map((key) => [key, CROP_CATALOGUE[key].label] as const)}
          hint={`Usually cut at about ${Math.round(CROP_CATALOGUE[inputs.crop].usualMoistureWb * 100)} % moisture and ${CROP_CATALOGUE[inputs.crop].usualStubbleCm} cm stubble`}
          onChoice={(crop) => dispatch({ kind: "choice", choice: { crop } })}
        />
        <TextField
          label="Yield"
          unit="t of dry matter per ha"
          hint={rangeHint(FIELD_LIMITS.yieldTHa)}
          {...text("yieldTHa")}
        />
        <TextField
          label="Stubble"
          unit="cm"
          hint={rangeHint(FIELD_LIMITS.stubbleCm)}
          {...text("stubbleCm")}
        />
        <TextField label="Area" unit="ha" hint={rangeHint(FIELD_LIMITS.areaHa)} {...text("areaHa")} />
      </Group>
      <Group title="Machines and hours">
        <TextField label="Mowing" {...rate("mowHaPerH")} />
        <TextField label="Baler" {...rate("balerHaPerH")} />
        <TextField label="Chopper" {...rate("chopperHaPerH")} />
        <div class="pair">
          <TextField label="Work from" unit="HH:MM" numeric={false} {...text("workFrom")} />
          <TextField label="to" unit="HH:MM" numeric={false} {...text("workTo")} />
        </div>
        <TextField
          label="Cut hours to compare"
          numeric={false}
          hint="Whole hours of the farm's clock, as 9 13 17"
          {...text("cutHours")}
        />
      </Group>
      <Group title="Routes">
        {errors.routes ? <ErrorText id="routes-error" text={errors.routes} /> : null}
        {ROUTES.map((route) => {
          const entry = ROUTE_CATALOGUE[route];
          const choice = inputs.routes[route];
          const pack =
            choice.package ??
            (route === "dry-hay" ? defaultPackage(inputs.crop) : HARVEST_DEFAULTS.package.value);
          return (
            <div class="route" key={route}>
              <label class="check">
                <input
                  type="checkbox"
                  checked={choice.on}
                  aria-describedby={errors.routes ? "routes-error" : undefined}
                  onChange={(event) =>
                    dispatch({ kind: "route", route, choice: { on: event.currentTarget.checked } })
                  }
                />
                <span>{entry.label}</span>
              </label>
              {choice.on && entry.packages.length > 0 ? (
                <SelectField
                  label={`${entry.label}: package`}
                  value={pack}
                  choices={entry.packages.map((key) => [key, PACKAGE_LABELS[key]] as const)}
                  onChoice={(picked) => dispatch({ kind: "route", route, choice: { package: picked } })}
                />
              ) : null}
              {choice.on && entry.stores.length > 0 ? (
                <SelectField
                  label={`${entry.label}: store`}
                  value={choice.store ?? HARVEST_DEFAULTS.store.value}
                  choices={entry.stores.map((key) => [key, STORE_LABELS[key]] as const)}
                  onChoice={(store) => dispatch({ kind: "route", route, choice: { store } })}
                />
              ) : null}
            </div>
          );
        })}
      </Group>
    </div>
  );
}
