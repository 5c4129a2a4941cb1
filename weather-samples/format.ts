import type { Sample } from "./weather.ts";

const LINE_WIDTH = 110;

/** Numbers side by side up to the line's width, as the repository's formatter lays them out. */
function fillNumbers(values: readonly unknown[], indent: string): string {
  const lines: string[] = [];
  let line = "";
  values.forEach((value, i) => {
    const piece = JSON.stringify(value) + (i < values.length - 1 ? "," : "");
    if (line !== "" && indent.length + 2 + line.length + 1 + piece.length > LINE_WIDTH) {
      lines.push(line);
      line = piece;
    } else {
      line = line === "" ? piece : `${line} ${piece}`;
    }
  });
  if (line !== "") lines.push(line);
  return `[\n${lines.map((text) => `${indent}  ${text}`).join("\n")}\n${indent}]`;
}

function layOut(value: unknown, indent: string): string {
  if (Array.isArray(value)) {
    if (value.length > 0 && value.every((item) => typeof item === "number"))
      return fillNumbers(value, indent);
    const items = value.map((item) => `${indent}  ${layOut(item, `${indent}  `)}`);
    return `[\n${items.join(",\n")}\n${indent}]`;
  }
  if (typeof value === "object" && value !== null) {
    const entries = Object.entries(value);
    if (entries.length === 0) return "{}";
    const lines = entries.map(
      ([key, item]) => `${indent}  ${JSON.stringify(key)}: ${layOut(item, `${indent}  `)}`,
    );
    return `{\n${lines.join(",\n")}\n${indent}}`;
  }
  return JSON.stringify(value);
}

/** A sample as the text of its file. */
export function sampleText(sample: Sample): string {
  return `${layOut(sample, "")}\n`;
}
