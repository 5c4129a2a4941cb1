import type { Issue } from "../limits.ts";
import { checkReadings, endOfNowMs } from "../odds/reading-checks.ts";
import { HOUR_MS } from "../weather/clock.ts";
import type { PreparedWeather } from "../weather/hourly.ts";
import { ROUTES, SWATH_ROUTES } from "./keys.ts";
import { HARVEST_COUNTS } from "./limits.ts";
import { timeIssue } from "./plan-checks.ts";
import type { CutRequest, WindowsRequest } from "./request.ts";

/** What is wrong with cuts that were made, and with what was measured on cuts. */

function issue(path: string, code: string, text: string): Issue {
  return { path, code, message: `${path}: ${text}` };
}

function cutIssues({ treatments }: WindowsRequest, cut: CutRequest, path: string): (Issue | null)[] {
  const known = treatments?.map(({ id }) => id) ?? [];
  const of = known.join(", ");
  const { treatment } = cut;
  const named =
    treatment === undefined
      ? known.length > 1
        ? issue(`${path}.treatment`, "required", `missing, must be one of ${of}`)
        : null
      : known.length === 0 || known.includes(treatment)
        ? null
        : issue(
            `${path}.treatment`,
            "unknown-value",
            `got ${JSON.stringify(treatment)}, must be one of ${of}`,
          );
  return [timeIssue(`${path}.cutUtc`, cut.cutUtc), named];
}

function listIssues(request: WindowsRequest, key: "madeCuts" | "readCuts"): (Issue | null)[] {
  const cuts: readonly CutRequest[] = request[key] ?? [];
  const most = HARVEST_COUNTS[key];
  const keys = cuts.map(({ cutUtc, treatment = "" }) => `${Date.parse(cutUtc)} ${treatment}`);
  return [
    cuts.length > most
      ? issue(key, "too-many", `got a list of ${cuts.length}, must have at most ${most}`)
      : null,
    ...cuts.flatMap((cut, i) => cutIssues(request, cut, `${key}[${i}]`)),
    ...keys.map((one, i) =>
      keys.indexOf(one) < i
        ? issue(
            `${key}[${i}].cutUtc`,
            "duplicate",
            `got ${cuts[i]?.cutUtc} a second time, must be there once`,
          )
        : null,
    ),
  ];
}

/** Checks that need no weather. */
export function checkMade(request: WindowsRequest): Issue[] {
  const asked = request.routes?.map(({ route }) => route) ?? ROUTES;
  const known = SWATH_ROUTES.filter((route) => asked.includes(route));
  const routes = (request.readCuts ?? []).map(({ route }, i) =>
    route === undefined || known.some((one) => one === route)
      ? null
      : issue(
          `readCuts[${i}].route`,
          "unknown-value",
          `got ${JSON.stringify(route)}, must be one of ${known.join(", ")}`,
        ),
  );
  const counts = (request.readCuts ?? []).map(({ readings }, i) =>
    readings.length > HARVEST_COUNTS.readings
      ? issue(
          `readCuts[${i}].readings`,
          "too-many",
          `got a list of ${readings.length}, must have at most ${HARVEST_COUNTS.readings}`,
        )
      : null,
  );
  return [
    ...listIssues(request, "madeCuts"),
    ...listIssues(request, "readCuts"),
    ...routes,
    ...counts,
  ].filter((one) => one !== null);
}

/** Checks against the weather and now: what has not come yet was neither cut nor measured. */
export function checkMadeAgainst(
  request: WindowsRequest,
  { weather, usableUntilUtcMs }: Pick<PreparedWeather, "weather" | "usableUntilUtcMs">,
): Issue[] {
  const { nowUtc } = request;
  const limitMs = typeof nowUtc === "string" ? endOfNowMs(nowUtc) : Number.POSITIVE_INFINITY;
  const ahead = (path: string, utc: string, what: string): Issue[] =>
    Date.parse(utc) <= limitMs
      ? []
      : [
          issue(
            path,
            "out-of-range",
            `got ${utc}, must not lie after the hour of nowUtc (${request.nowUtc}): it has not been ${what} yet`,
          ),
        ];
  const endMs = weather.startUtcMs + weather.count * HOUR_MS;
  const made = (request.madeCuts ?? []).flatMap(({ cutUtc }, i) =>
    ahead(`madeCuts[${i}].cutUtc`, cutUtc, "made"),
  );
  const read = (request.readCuts ?? []).flatMap(({ cutUtc, readings }, i) => {
    const cutMs = Date.parse(cutUtc);
    // What lies outside the weather is left out with its cut, in words.
    if (!(cutMs >= weather.startUtcMs && cutMs < endMs)) return [];
    const path = `readCuts[${i}].readings`;
    return [
      ...checkReadings(readings, cutMs, usableUntilUtcMs, path),
      ...readings.flatMap(({ atUtc }, k) => ahead(`${path}[${k}].atUtc`, atUtc, "measured")),
    ];
  });
  return [...made, ...read];
}
