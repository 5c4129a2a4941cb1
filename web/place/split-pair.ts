/** A number with a point, or with a comma as in many countries. */
const POINT = String.raw`[+-]?\d{1,3}(?:\.\d+)?`;
const COMMA = String.raw`[+-]?\d{1,3}(?:,\d+)?`;
const DEGREES = String.raw`\s*°?\s*`;

const PAIRS = [
  new RegExp(`^(${POINT})${DEGREES}([NS]?)\\s*[,;\\s]\\s*(${POINT})${DEGREES}([EW]?)$`, "i"),
  new RegExp(`^(${COMMA})${DEGREES}([NS]?)\\s*[;\\s]\\s*(${COMMA})${DEGREES}([EW]?)$`, "i"),
];

export interface Pair {
  readonly latitude: string;
  readonly longitude: string;
}

const turned = (number: string, side: string) =>
  /[SW]/i.test(side) && !number.startsWith("-") ? `-${number.replace("+", "")}` : number;

/** "44.3, -98.2" as a map gives it, parted into its two numbers; null where a text is no pair. */
export function splitPair(text: string): Pair | null {
  const plain = text
    .trim()
    .replace(/^[([]|[)\]]$/g, "")
    .trim();
  // "44,3" is a decimal comma.
  if (/^[+-]?\d+,\d+$/.test(plain)) return null;
  for (const pair of PAIRS) {
    const [, north, ns = "", east, ew = ""] = pair.exec(plain) ?? [];
    if (north !== undefined && east !== undefined)
      return { latitude: turned(north, ns), longitude: turned(east, ew) };
  }
  return null;
}
