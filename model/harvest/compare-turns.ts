import { SWATH_LIMITS } from "../drying/limits.ts";
import type { Side } from "./compare-sides.ts";
import type { RouteKey } from "./keys.ts";
import { rainLoss } from "./losses/index.ts";
import type { WindowsRequest } from "./request.ts";
import { type SettledMoney, settleMoney } from "./settle-money.ts";
import { type RouteValueQuestion, routeValue } from "./value/route-value.ts";
import { type Inputs, type Lever, type Turn, turningPoints } from "./value/sensitivities.ts";

/** Which single input, moved by how much, changes the first place of a comparison. */

/** Rain that a lever adds on a swath, mm, and the most that storage is moved to, per cent. */
const MOST_RAIN_MM = 40;
const MOST_STORAGE_PCT = 40;
/** Prices and rates are moved between nothing and this many times what they are. */
const MOST_TIMES = 4;

/** One input that may be moved, and the question that it makes of a side. Sides that it does not touch stay as they are. */
interface Handle extends Lever {
  readonly touches: (side: Side) => boolean;
  readonly moved: (side: Side, to: number) => RouteValueQuestion;
}

function money(key: string, at: number, touches: Handle["touches"], moved: Handle["moved"]): Handle[] {
  return at > 0 ? [{ key, at, lo: 0, hi: at * MOST_TIMES, touches, moved }] : [];
}

function rateHandles(sides: readonly Side[], { rates }: SettledMoney): Handle[] {
  const is =
    (...routes: readonly RouteKey[]) =>
    ({ row }: Side) =>
      routes.includes(row.route);
  const set = (change: (to: number) => RouteValueQuestion["rates"]) => (side: Side, to: number) => ({
    ...side.ask,
    rates: { ...rates, ...change(to) },
  });
  const baled = is("dry-hay", "wrapped-bales");
  const packs = [...new Set(sides.filter(baled).map(({ row }) => row.package))];
  const cut = is("dry-hay", "wrapped-bales", "wilted-chop");
  return [
    ...money(
      "rates.mowPerHa",
      rates.mowPerHa,
      cut,
      set((mowPerHa) => ({ mowPerHa })),
    ),
    ...packs.flatMap((pack) =>
      money(
        `rates.balePerBale.${pack}`,
        rates.balePerBale[pack],
        (side) => baled(side) && side.row.package === pack,
        set((to) => ({ balePerBale: { ...rates.balePerBale, [pack]: to } })),
      ),
    ),
    ...money(
      "rates.wrapPerBale",
      rates.wrapPerBale,
      is("wrapped-bales"),
      set((wrapPerBale) => ({ wrapPerBale })),
    ),
    ...money(
      "rates.filmPerBale",
      rates.filmPerBale,
      is("wrapped-bales"),
      set((filmPerBale) => ({ filmPerBale })),
    ),
    ...money(
      "rates.chopPerHa",
      rates.chopPerHa,
      is("wilted-chop", "direct-chop", "green-chop"),
      set((chopPerHa) => ({ chopPerHa })),
    ),
    ...money(
      "rates.fillPerHa",
      rates.fillPerHa,
      is("wilted-chop", "direct-chop"),
      set((fillPerHa) => ({ fillPerHa })),
    ),
    ...money(
      "rates.labourPerH",
      rates.labourPerH,
      () => true,
      set((labourPerH) => ({ labourPerH })),
    ),
  ];
}

function handlesOf(request: WindowsRequest, sides: readonly Side[]): Handle[] {
  const settled = settleMoney(request);
  const yieldAt = request.swath.dryMatterTHa;
  const prices = sides.flatMap(({ row: { route } }) =>
    money(
      `prices.${route}`,
      settled.prices[route],
      ({ row }) => row.route === route,
      ({ ask }, to) => ({ ...ask, prices: { ...settled.prices, [route]: to } }),
    ),
  );
  const storage = sides.flatMap(({ row: { route, lossSteps } }): Handle[] => {
    const at = lossSteps.find(({ step }) => step === "storage")?.pct;
    if (at === undefined || at > MOST_STORAGE_PCT) return [];
    const moved = ({ ask }: Side, to: number) => ({
      ...ask,
      steps: ask.steps.map((one) => (one.step === "storage" ? { ...one, pct: to } : one)),
    });
    return [
      {
        key: `storagePct.${route}`,
        at,
        lo: 0,
        hi: MOST_STORAGE_PCT,
        touches: ({ row }) => row.route === route,
        moved,
      },
    ];
  });
  const rain = sides.flatMap(({ row: { route, daysLying: lying } }): Handle[] => {
    if (lying === null) return [];
    const moved = ({ ask, crop, conditioning }: Side, mm: number) => ({
      ...ask,
      steps: [...ask.steps, rainLoss(crop, conditioning, [{ rainMm: mm, moistureWb: ask.takenAtWb }])],
    });
    return [
      {
        key: `moreRainMm.${route}`,
        at: 0,
        lo: 0,
        hi: MOST_RAIN_MM,
        touches: ({ row }) => row.route === route,
        moved,
      },
    ];
  });
  return [
    ...prices,
    {
      key: "swath.dryMatterTHa",
      at: yieldAt,
      lo: Math.max(SWATH_LIMITS.dryMatterTHa.min, yieldAt / MOST_TIMES),
      hi: Math.min(SWATH_LIMITS.dryMatterTHa.max, yieldAt * MOST_TIMES),
      touches: () => true,
      moved: ({ ask }, to) => ({ ...ask, dryMatterTHa: to }),
    },
    ...rateHandles(sides, settled),
    ...storage,
    ...rain,
  ];
}

/**
 * Turning points of the first place. An expected value over members moves by what the main forecast's value moves. Losses
 * are not worked out anew for another yield: a thin crop also loses a larger share under the rake.
 */
export function turnsOf(request: WindowsRequest, sides: readonly Side[]): Turn[] {
  const known = sides.filter(({ row }) => row.valuePerHa !== null && row.takenShare !== null);
  if (known.length < 2) return [];
  const expected = Object.fromEntries(known.map(({ row }) => [row.route, row.valuePerHa ?? 0]));
  return handlesOf(request, known)
    .flatMap((handle) => {
      const touched = known.filter(handle.touches);
      const worth = (inputs: Inputs) => {
        const to = inputs[handle.key] ?? handle.at;
        if (to === handle.at) return expected;
        const moved = touched.map((side) => {
          const by = routeValue(handle.moved(side, to)).valuePerHa - side.row.value.valuePerHa;
          return [side.row.route, (side.row.valuePerHa ?? 0) + by] as const;
        });
        return { ...expected, ...Object.fromEntries(moved) };
      };
      return turningPoints([handle], worth);
    })
    .sort((a, b) => a.share - b.share || (a.key < b.key ? -1 : 1));
}
