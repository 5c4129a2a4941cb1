import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { accuracyTable } from "../truth/drying/table.ts";

test("README shows the accuracy of the model as it is now (npm run accuracy prints the table)", () => {
  const readme = readFileSync(new URL("../../README.md", import.meta.url), "utf8");
  for (const row of accuracyTable().split("\n")) expect(readme).toContain(row);
});
