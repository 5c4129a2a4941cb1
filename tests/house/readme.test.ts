import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { accuracyTable } from "../truth/drying/table.ts";

/** A table row without the padding that a formatter may give it. */
function cells(row: string): string {
  return row
    .split("|")
    .map((cell) => cell.trim().replace(/^-+$/, "-"))
    .join("|");
}

test("README shows the accuracy of the model as it is now (npm run accuracy prints the table)", () => {
  const readme = readFileSync(new URL("../../README.md", import.meta.url), "utf8")
    .split("\n")
    .map(cells);
  for (const row of accuracyTable().split("\n")) expect(readme).toContain(cells(row));
});
