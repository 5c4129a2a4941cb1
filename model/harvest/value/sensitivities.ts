/** One input of a comparison: where it stands, and between what it may be moved. */
export interface Lever {
  readonly key: string;
  readonly at: number;
  readonly lo: number;
  readonly hi: number;
}

/** The smallest move of one input that gives another place the lead. */
export interface Turn {
  readonly key: string;
  readonly from: number;
  readonly to: number;
  /** The move over the whole span that the input may take, 0-1. */
  readonly share: number;
  /** Who leads then. */
  readonly leader: string;
}

export type Inputs = Readonly<Record<string, number>>;
/** What each place is worth with these inputs; the places are the same for all inputs. */
export type ValueOf = (inputs: Inputs) => Readonly<Record<string, number>>;

/** Steps in which each side is searched: a lead that is lost and regained within one of them is not seen. */
const STEPS = 40;
const HALVINGS = 40;

/** The place of highest value; of equals, the first by name. Null where there are none. */
export function leaderOf(values: Readonly<Record<string, number>>): string | null {
  const places = Object.keys(values).sort();
  return places.reduce<string | null>(
    (best, place) => (best === null || (values[place] as number) > (values[best] as number) ? place : best),
    null,
  );
}

/**
 * Which single input, moved by how much, changes the first place: the smallest move of each input that does, least share
 * of its span first. Inputs that change nothing within their span are left out.
 *
 * @throws RangeError where an input does not stand within its span
 */
export function turningPoints(levers: readonly Lever[], worth: ValueOf): Turn[] {
  const base = Object.fromEntries(levers.map(({ key, at }) => [key, at]));
  const first = leaderOf(worth(base));
  const turns = levers.flatMap((lever) => {
    const { key, at, lo, hi } = lever;
    if (!(at >= lo && at <= hi))
      throw new RangeError(`turningPoints: ${key} must be in [${lo}, ${hi}], got ${at}`);
    const leads = (value: number) => leaderOf(worth({ ...base, [key]: value }));
    const sides = [hi, lo].flatMap((end) => {
      const to = firstTurn(at, end, (value) => leads(value) !== first);
      return to === null ? [] : [to];
    });
    const nearest = sides.sort((a, b) => Math.abs(a - at) - Math.abs(b - at))[0];
    const leader = nearest === undefined ? null : leads(nearest);
    if (nearest === undefined || leader === null) return [];
    return [{ key, from: at, to: nearest, share: Math.abs(nearest - at) / (hi - lo), leader }];
  });
  return turns.sort((a, b) => a.share - b.share || (a.key < b.key ? -1 : 1));
}

/** The value nearest to `at` on the way to `end` at which `turned` holds, found by steps and then by halving. */
function firstTurn(at: number, end: number, turned: (value: number) => boolean): number | null {
  let before = at;
  for (let step = 1; step <= STEPS; step++) {
    const value = at + ((end - at) * step) / STEPS;
    if (!turned(value)) {
      before = value;
      continue;
    }
    let past = value;
    for (let k = 0; k < HALVINGS; k++) {
      const middle = (before + past) / 2;
      if (turned(middle)) past = middle;
      else before = middle;
    }
    return past;
  }
  return null;
}
