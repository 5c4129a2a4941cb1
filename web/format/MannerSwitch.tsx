import { Switch } from "../switch/Switch.tsx";
import { UNIT_SYSTEMS, type Units } from "./units.ts";

const SAID: Readonly<Record<Units, { readonly label: string; readonly of: string }>> = {
  metric: { label: "Metric", of: "hectares, tonnes, mm, °C" },
  us: { label: "US", of: "acres, tons, inches, °F" },
};

/** Metric or US customary for everything that is shown and typed. */
export function MannerSwitch({ units, onUnits }: { readonly units: Units; onUnits(units: Units): void }) {
  return <Switch legend="Units" value={units} choices={UNIT_SYSTEMS} said={SAID} onChoice={onUnits} />;
}
