import { useId } from "preact/hooks";
import { UNIT_SYSTEMS, type Units } from "./units.ts";
import "./manner-switch.css";

const SAID: Readonly<Record<Units, { readonly label: string; readonly of: string }>> = {
  metric: { label: "Metric", of: "hectares, tonnes, mm, °C" },
  us: { label: "US", of: "acres, tons, inches, °F" },
};

/** Metric or US customary for everything that is shown and typed. */
export function MannerSwitch({ units, onUnits }: { readonly units: Units; onUnits(units: Units): void }) {
  const name = useId();
  return (
    <fieldset class="manner-switch">
      <legend>Units</legend>
      {UNIT_SYSTEMS.map((each) => (
        <label key={each} title={SAID[each].of}>
          <input
            type="radio"
            name={name}
            value={each}
            checked={units === each}
            onChange={() => onUnits(each)}
          />
          <span>{SAID[each].label}</span>
        </label>
      ))}
    </fieldset>
  );
}
