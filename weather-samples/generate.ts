import { writeFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { sampleText } from "./format.ts";
import { SPELLS } from "./spells.ts";
import { inventSample } from "./weather.ts";

/** Writes the invented spells beside this file. Run by `npm run samples`; the same seed gives the same bytes. */
for (const spell of SPELLS) {
  const file = fileURLToPath(new URL(`${spell.id}.json`, import.meta.url));
  writeFileSync(file, sampleText(inventSample(spell)));
  console.log(file);
}
