import { withLearnedRequest } from "../odds/cut-sample.ts";
import { uncertaintyOf } from "../odds/uncertainty.ts";
import { utcLabel } from "../weather/labels.ts";
import type { BoardReadingsAnswer, CutOptionAnswer, ReadCutAnswer } from "./answer.ts";
import type { ReadOption, ReadOptions } from "./read-cuts.ts";
import type { WindowsRequest } from "./request.ts";
import { ROUTE_CATALOGUE } from "./routes.ts";
import type { Settled } from "./settle.ts";
import { dateWords, stepped } from "./words.ts";

/** What the readings changed on the board, in sentences. */

function when({ clock, saying }: Settled, utc: string): string {
  return dateWords(saying, clock.partsAt(stepped(Date.parse(utc), saying.stepMin)));
}

function cutTold(
  settled: Settled,
  id: string,
  { of, route: { route }, used, readings }: ReadOption,
  lastUsedMs: number | null,
  beforeUtc: string | null,
  windowUtc: string | null,
): ReadCutAnswer {
  const { clock, saying } = settled;
  const cut = dateWords(saying, clock.partsAt(of.cut.cutUtcMs));
  const what = `${ROUTE_CATALOGUE[route].label} of the cut ${cut}`;
  const none = "no time within this weather";
  const before = beforeUtc === null ? none : when(settled, beforeUtc);
  const past = beforeUtc !== null && lastUsedMs !== null && Date.parse(beforeUtc) < lastUsedMs;
  const now = windowUtc === null ? none : when(settled, windowUtc);
  const text =
    used === 0
      ? `${what}: ${readings.length === 1 ? "the reading is" : "the readings are"} questioned, the row stays as it was until you confirm ${readings.length === 1 ? "it" : "one"}, or a second reading bears it out.`
      : before === now
        ? `${what}: ${windowUtc === null ? now : `from ${now}`}, as before the reading.`
        : `${what}: now ${windowUtc === null ? now : `from ${now}`}; before the reading ${before}${past ? ", past by then" : ""}.`;
  return { optionId: id, route, used, beforeUtc, windowUtc, text };
}

/** Per cent by which the rate of other cuts differs from what it was without the readings, now. */
function otherRatePct(request: WindowsRequest, settled: Settled, read: ReadOptions): number | null {
  if (read.taught === null) return null;
  const prior = uncertaintyOf(settled.swath.crop);
  const lnOf = (learned: WindowsRequest["learned"]) =>
    withLearnedRequest(prior, learned, settled.nowUtcMs).rateLnMean;
  return 100 * (Math.exp(lnOf(read.learned) - lnOf(request.learned)) - 1);
}

function otherText(pct: number | null): string {
  if (pct === null) return "Other cuts of this field stay as they were.";
  const whole = Math.round(Math.abs(pct));
  if (whole === 0) return "Other cuts of this field dry as before.";
  return `Other cuts of this field are now taken to dry ${whole} % ${pct < 0 ? "slower" : "faster"}.`;
}

/**
 * What is told of the readings.
 *
 * @param options the board's rows as they are answered
 * @param before start of the first window of each read row's route without its readings
 */
export function readingsTold(
  request: WindowsRequest,
  settled: Settled,
  read: ReadOptions,
  options: readonly CutOptionAnswer[],
  before: ReadonlyMap<string, string | null>,
): BoardReadingsAnswer {
  const told = [...read.byId].map(([id, one]) => {
    const row = options.find((option) => option.id === id);
    const route = row?.routes.find((each) => each.route === one.route.route);
    return cutTold(
      settled,
      id,
      one,
      read.lastUsedMs,
      before.get(id) ?? null,
      route?.windows[0]?.startUtc ?? null,
    );
  });
  const pct = otherRatePct(request, settled, read);
  const aside = read.aside.map(
    (ms) =>
      `The cut ${dateWords(settled.saying, settled.clock.partsAt(ms))} has no row here; what was read of it still counts.`,
  );
  const askedFromMs = request.nowUtc ? Date.parse(request.nowUtc) : settled.weather.startUtcMs;
  return {
    ...(settled.nowUtcMs > askedFromMs ? { fromUtc: utcLabel(settled.nowUtcMs) } : {}),
    cuts: told,
    learned: read.taught,
    otherRatePct: pct,
    text: [...told.map(({ text }) => text), ...aside, otherText(pct)].join(" "),
  };
}
