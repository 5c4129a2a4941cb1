import { WHO_DECIDES } from "../feed/who-decides.ts";
import { hazardsDuring } from "../harvest/hazard-reasons.ts";
import { feedTests } from "../harvest/hazards/feed-tests.ts";
import { HAZARD_WORDS } from "../harvest/hazards/hazard-words.ts";
import { hazardCalendar } from "../harvest/hazards/index.ts";
import { routeWaits } from "../harvest/route-details/index.ts";
import { HARVEST_DEFAULTS, ROUTE_CATALOGUE } from "../harvest/routes.ts";
import { beforeCutting, type Gate } from "../harvest/value/before-cutting.ts";
import { HOUR_MS } from "../weather/clock.ts";
import { utcLabel } from "../weather/labels.ts";
import type { CrewCaution, CrewPlanAnswer, MowingWait } from "./answer.ts";
import type { BuiltCrew } from "./build-grid.ts";
import { type CrewOp, isGather } from "./keys.ts";
import type { CrewJob } from "./problem.ts";
import type { CrewFieldRequest } from "./request.ts";
import { dayTime, fieldName, someWords, spokenClock } from "./words.ts";

/**
 * What is to be known before a field's crop is cut and fed, as the board says it of one field: the gate before cutting, the
 * waits after rain and frost that the mowing lies in, and the route's own cautions. None of it clears a feed.
 */

const FEED_CODES = ["before-cutting", "test", "hazard", "feed"] as const;
type FeedCode = (typeof FEED_CODES)[number];

/** Whether a caution is of the crop as feed; the others are of work that is held. */
export function isOfFeed({ code }: { readonly code: string }): boolean {
  return (FEED_CODES as readonly string[]).includes(code);
}

/** Of which gates a caution is made; whether to wait is no caution. */
const GATES: Readonly<Record<"before-cutting" | "test", readonly Gate["key"][]>> = {
  "before-cutting": ["insurer", "label"],
  test: ["nitrate", "prussic-acid"],
};

/** The cautions of all fields, field by field, but of those where all is done: what is left standing may be cut another way. */
export function feedCautions(built: BuiltCrew, jobs: readonly CrewJob[]): CrewCaution[] {
  const { request, nowUtcMs } = built;
  return request.fields.flatMap((field, i): CrewCaution[] => {
    const own = jobs.filter(({ fieldId }) => fieldId === field.id);
    const mowing = own.find(({ op }) => op === "mow");
    const isMown = mowing !== undefined && mowing.startUtcMs < nowUtcMs;
    const isDone = field.ops.every((op) => own.some((job) => job.op === op && job.endUtcMs <= nowUtcMs));
    const said = (op: CrewOp, code: FeedCode, path: string, text: string): CrewCaution => ({
      fieldId: field.id,
      op,
      code,
      path: `fields[${i}].${path}`,
      text: `${fieldName(field)}: ${text}`,
    });
    const last = field.ops.find(isGather) ?? field.ops.at(-1) ?? "mow";
    return [
      ...(isMown || mowing === undefined ? [] : hazardsOf(built, field, mowing)).map(({ text, wait }) => ({
        ...said("mow", "hazard", "swath.crop", text),
        ...(wait === undefined ? {} : { wait }),
      })),
      ...(isMown
        ? []
        : [
            said("mow", "before-cutting", "swath.crop", gateText(field, "before-cutting")),
            said("mow", "test", "swath.crop", gateText(field, "test")),
          ]),
      ...(isDone ? [] : [said(last, "feed", "route", routeText(field))]),
    ];
  });
}

function gateText({ swath }: CrewFieldRequest, code: keyof typeof GATES): string {
  const asks = beforeCutting(swath.crop)
    .filter(({ key }) => GATES[code].includes(key))
    .map(({ ask }) => ask);
  return `before mowing: ${asks.join(" ")}`;
}

/** The waits and doubts that a mowing lies in, and until when each is counted. */
function hazardsOf(
  built: BuiltCrew,
  { siteId, swath, route }: CrewFieldRequest,
  mowing: CrewJob,
): readonly { readonly text: string; readonly wait?: MowingWait }[] {
  const weather = built.sites[siteId]?.central.weather;
  if (weather === undefined || feedTests(swath.crop).length === 0) return [];
  const calendar = hazardCalendar(weather, {
    crop: swath.crop,
    route,
    // A crew's question tells of neither: what nobody has said counts as yes.
    drought: null,
    regrowthCm: null,
    maxRainMm24h: HARVEST_DEFAULTS.carriesAfterMm[swath.soil].value,
  }).filter(({ code }) => code !== "soil-too-wet");
  const endMs = weather.startUtcMs + weather.count * HOUR_MS;
  const span = { startMs: mowing.startUtcMs, endMs: mowing.endUtcMs };
  return hazardsDuring(calendar, span).map(({ code, level, text, endUtcMs }) => {
    const until = endUtcMs < endMs ? dayTime(endUtcMs, spokenClock(built)) : null;
    if (level === "wait") {
      const untilUtc = until === null ? null : utcLabel(endUtcMs);
      const lasts = until === null ? "that lasts past this weather" : `until ${until}`;
      return {
        text: `its mowing lies in a wait ${lasts}. ${text} Sample the standing crop before mowing.`,
        wait: { why: HAZARD_WORDS[code], untilUtc },
      };
    }
    return { text: `${text} ${until === null ? "It lasts past this weather." : `Counted until ${until}.`}` };
  });
}

function routeText({ route, swath }: CrewFieldRequest): string {
  const { label, caution } = ROUTE_CATALOGUE[route];
  const tests = feedTests(swath.crop);
  const ferment = routeWaits(route, swath.crop).filter(({ what }) => what === "ferment");
  return [
    `${label.toLowerCase()}.`,
    ...(tests.length === 0 ? [] : [`Test for ${tests.join(" and ")} before feeding.`]),
    caution,
    ...ferment.map(({ text }) => text),
    WHO_DECIDES,
  ].join(" ");
}

/**
 * Each such caution once, with the names of the fields that it is said of.
 *
 * @param told which of them; absent = all
 */
export function feedWarnings(
  { cautions, names }: Pick<CrewPlanAnswer, "cautions" | "names">,
  told: (caution: CrewCaution) => boolean = () => true,
): string[] {
  const ofFeed = cautions.filter(isOfFeed);
  const groups = new Map<string, string[]>();
  for (const { fieldId, text } of ofFeed.filter(told)) {
    const name = names.fields[fieldId] ?? fieldId;
    const bare = text.replace(`${name}: `, "");
    groups.set(bare, [...(groups.get(bare) ?? []), name]);
  }
  const all = new Set(ofFeed.map(({ fieldId }) => fieldId)).size;
  const isAll = (of: readonly string[]) => of.length === all && all > 1;
  return [...groups].map(([text, of]) => `${isAll(of) ? "Every field" : someWords(of)}: ${text}`);
}
