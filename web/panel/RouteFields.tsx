import {
  defaultBand,
  defaultPackage,
  HARVEST_DEFAULTS,
  type PackageKey,
  ROUTE_CATALOGUE,
  ROUTES,
  type RouteKey,
} from "../../model/harvest/index.ts";
import { type Manner, numberText } from "../format/manner.ts";
import { unitName } from "../format/units.ts";
import type { Inputs } from "../state/inputs.ts";
import { ErrorText, SelectField, TextField } from "./Field.tsx";
import { fieldProps, type PanelProps } from "./panel-props.ts";
import { ORIGIN_WORDS, PACKAGE_LABELS, STORE_LABELS } from "./route-words.ts";

/** The package a route has, chosen or usual, as the model takes it. */
function packageOf(route: RouteKey, { routes, crop }: Inputs): PackageKey {
  return (
    routes[route].package ?? (route === "dry-hay" ? defaultPackage(crop) : HARVEST_DEFAULTS.package.value)
  );
}

/** "45 to 60 % moisture (published)"; green chop and grazing have no band. */
function bandWords(route: RouteKey, inputs: Inputs, manner: Manner): string {
  const store = inputs.routes[route].store ?? HARVEST_DEFAULTS.store.value;
  const band = defaultBand(route, inputs.crop, packageOf(route, inputs), store);
  if (band === null) return "taken fresh, at any moisture";
  const [lo, hi] = band.bandWb.map((wb) => numberText(wb * 100, 1, manner));
  const [dry, wet] = band.edges.map(({ origin }) => ORIGIN_WORDS[origin]);
  const origins = dry === wet ? dry : `driest ${dry}, wettest ${wet}`;
  return `${lo} to ${hi} % moisture (${origins})`;
}

function RouteFieldsOf(props: PanelProps & { readonly route: RouteKey }) {
  const { route, inputs, dispatch, manner } = props;
  const usualDryDown = numberText(HARVEST_DEFAULTS.dryDownPointsPerDay.value, 1, manner);
  const entry = ROUTE_CATALOGUE[route];
  const choice = inputs.routes[route];
  return (
    <>
      {entry.packages.length > 0 ? (
        <SelectField
          label={`${entry.label}: package`}
          value={packageOf(route, inputs)}
          choices={entry.packages.map((key) => [key, PACKAGE_LABELS[key]] as const)}
          onChoice={(picked) => dispatch({ kind: "route", route, choice: { package: picked } })}
        />
      ) : null}
      {entry.stores.length > 0 ? (
        <SelectField
          label={`${entry.label}: store`}
          value={choice.store ?? HARVEST_DEFAULTS.store.value}
          choices={entry.stores.map((key) => [key, STORE_LABELS[key]] as const)}
          onChoice={(store) => dispatch({ kind: "route", route, choice: { store } })}
        />
      ) : null}
      {route === "direct-chop" ? (
        <TextField
          label="Standing crop loses, a day"
          {...fieldProps(
            props,
            "dryDownPointsPerDay",
            `empty = ${usualDryDown} (published for corn); measure it: leaf colour misleads`,
          )}
          unit="points"
          placeholder={`usual, ${usualDryDown}`}
        />
      ) : null}
      {/* The routes of highest risk carry their whole caution here as well: this is where they are chosen. */}
      {entry.wholeArea ? null : <p class="route-caution">{entry.caution}</p>}
    </>
  );
}

/** The ways to bring the crop in: each with its band, package or store, and what it needs to know. */
export function RouteFields(props: PanelProps) {
  const { inputs, read, dispatch, manner } = props;
  const error = read.errors.routes;
  const fresh = ROUTES.some((route) => inputs.routes[route].on && !ROUTE_CATALOGUE[route].wholeArea);
  return (
    <>
      {error ? <ErrorText id="routes-error" text={error} /> : null}
      {ROUTES.map((route) => (
        <div class="route" key={route}>
          <label class="check">
            <input
              type="checkbox"
              checked={inputs.routes[route].on}
              aria-describedby={error ? "routes-error" : undefined}
              onChange={(event) =>
                dispatch({ kind: "route", route, choice: { on: event.currentTarget.checked } })
              }
            />
            <span>{ROUTE_CATALOGUE[route].label}</span>
          </label>
          <p class="hint">{bandWords(route, inputs, manner)}</p>
          {inputs.routes[route].on ? <RouteFieldsOf {...props} route={route} /> : null}
        </div>
      ))}
      {fresh ? (
        <TextField
          label="Daily need of the animals, dry matter"
          {...fieldProps(props, "dailyNeedKgDm", "empty = a turn of an hour a day is enough")}
          unit={`${unitName("mass", manner.units)} a day`}
        />
      ) : null}
    </>
  );
}
