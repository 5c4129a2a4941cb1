import { type Coefficient, coefficient } from "../coefficient.ts";
import type { ReadingMethod, ReadingRequest } from "../drying/request.ts";

/** What a way of measuring moisture is worth: one standard deviation, as a wet-basis fraction. */
export interface MethodError {
  readonly label: string;
  readonly sdWb: Coefficient;
  /** What pulls its readings to one side, in words; readings are not corrected for it. */
  readonly lean: string;
}

const UNIT = "(wet-basis fraction)";
const PRACTICE = "suggested one standard deviation, from memory; the wider end of its range";

function method(label: string, sdWb: number, range: readonly [number, number], lean: string): MethodError {
  return { label, sdWb: coefficient(sdWb, UNIT, "from-memory", PRACTICE, range), lean };
}

export const READING_METHODS: Readonly<Record<ReadingMethod, MethodError>> = {
  oven: method("Oven, 60 °C for 48 h", 0.005, [0.005, 0.005], "the reference"),
  microwave: method(
    "Microwave",
    0.015,
    [0.01, 0.025],
    "stopped early reads low, charred reads high; a scale of 1 g on 100 g adds 1 point",
  ),
  "heated-tester": method("Heated tester", 0.02, [0.015, 0.02], "reads slightly low"),
  "air-fryer": method("Air fryer, 120 °C for 30 min", 0.02, [0.015, 0.02], "leaf blown out reads wet"),
  "bale-probe": method(
    "Probe in the bale",
    0.04,
    [0.02, 0.04],
    "denser bales read 1-2 points high, looser 1-2 low, a stack 2-3 low, grass about 3 low, preservative 2-4 high for 1-2 days",
  ),
  "windrow-probe": method("Probe in the windrow", 0.06, [0.04, 0.06], "weak: dew and angle of the probe"),
  "hand-squeeze": method("Hand squeeze", 0.05, [0.05, 0.05], "an interval, not a number"),
};

export const PLACES = {
  sdWb: coefficient(
    0.03,
    UNIT,
    "assumed",
    "between places of one field: usually more than the instrument's own error",
    [0.02, 0.06],
  ),
  /** Grabs mixed into one sample, where nothing else is said. */
  grabs: coefficient(3, "grabs", "from-memory", "at least three grabs mixed into one sample", [1, 10]),
} as const;

/**
 * Error of a reading of the field's mean: the method's own and that of the places, sd² = method² + added² + place²/n.
 *
 * @param addedSdWb what the reading adds of its own: a coarse scale
 */
export function readingSdWb(kind: ReadingMethod, grabs: number = PLACES.grabs.value, addedSdWb = 0): number {
  if (!(grabs >= 1)) throw new RangeError(`readingSdWb: grabs must be at least 1, got ${grabs}`);
  return Math.hypot(READING_METHODS[kind].sdWb.value, addedSdWb, PLACES.sdWb.value / Math.sqrt(grabs));
}

/**
 * The hand squeeze of chopped forage as intervals, wet basis. Saskatchewan Agriculture, Determining moisture content.
 * Its ends past print are those of the model.
 */
export const SQUEEZE_RANGES = [
  { says: "water runs out easily, the ball holds", range: [0.8, 0.92] },
  { says: "water is just pressed out, the ball holds", range: [0.75, 0.8] },
  { says: "little or no water, the ball holds", range: [0.7, 0.75] },
  { says: "no water, the ball falls apart slowly", range: [0.6, 0.7] },
  { says: "the ball falls apart fast", range: [0.05, 0.6] },
] as const satisfies readonly { readonly says: string; readonly range: readonly [number, number] }[];

/** Error of one reading as it was taken, with three grabs mixed. */
export function sdOfReading({ method, addedSdWb = 0 }: Pick<ReadingRequest, "method" | "addedSdWb">): number {
  return readingSdWb(method, PLACES.grabs.value, addedSdWb);
}
