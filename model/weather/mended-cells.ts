/** One cell of a file that its owner corrects: an amount of rain that cannot be. */
export interface MendedCell {
  /** Line of the file, the first being 1. */
  readonly row: number;
  /** The cell as it stands in the file. */
  readonly value: string;
  /** What is to stand there, in the unit of its column. */
  readonly by: string;
}

const bare = (cell: string) =>
  cell
    .trim()
    .replace(/^"(.*)"$/, "$1")
    .trim();

/** The line with its one cell of that text replaced; unchanged where none or several read so. */
function mendedLine(line: string, { value, by }: MendedCell): string {
  for (const delimiter of [";", "\t", ","]) {
    const cells = line.split(delimiter);
    const places = cells.flatMap((cell, i) => (bare(cell) === value.trim() ? [i] : []));
    if (cells.length < 2 || places.length !== 1) continue;
    return cells.map((cell, i) => (i === places[0] ? by : cell)).join(delimiter);
  }
  return line;
}

/** A file's text with single cells corrected by whoever knows better; nothing else of it is touched. */
export function withMendedCells(text: string, mends: readonly MendedCell[]): string {
  if (mends.length === 0) return text;
  // Line ends are kept as they are.
  const parts = text.split(/(\r\n|\n|\r)/);
  for (const mend of mends) {
    const at = 2 * (mend.row - 1);
    const line = parts[at];
    if (line !== undefined) parts[at] = mendedLine(line, mend);
  }
  return parts.join("");
}
