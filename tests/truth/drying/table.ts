import { lossChecks } from "../losses/whole-systems.ts";
import type { Check } from "./checks.ts";
import { allChecks } from "./checks.ts";

/** Digits that say something about a value of this size. */
function printed(value: number): string {
  if (value === 0) return "0";
  if (value === Number.POSITIVE_INFINITY) return "never";
  const size = Math.abs(value);
  return value.toFixed(size >= 10 ? 1 : size >= 0.1 ? 2 : 3);
}

function verdict({ value, low, high, reportOnly }: Check): string {
  if (value >= low && value <= high) return reportOnly ? "inside (not required)" : "inside";
  return reportOnly ? "**outside** (not required)" : "**MISS**";
}

/** README's accuracy table: one row a check, those of drying in the order of checks.ts, then those of losses. */
export function accuracyTable(checks: readonly Check[] = [...allChecks(), ...lossChecks()]): string {
  const rows = checks.map(
    (check) =>
      `| ${check.what} | ${printed(check.value)} | ${printed(check.low)} to ${printed(check.high)} | ${verdict(check)} | ${check.use} | ${check.source} |`,
  );
  return ["| check | model | must be | | use | against |", "|---|---|---|---|---|---|", ...rows].join("\n");
}
