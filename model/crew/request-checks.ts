import { checkSwath } from "../drying/drydown.ts";
import { ROUTE_CATALOGUE } from "../harvest/routes.ts";
import { type Issue, type Limit, limitIssue } from "../limits.ts";
import { isGather, KIND_OF_OP, opOrder } from "./keys.ts";
import { CREW_LIMITS } from "./limits.ts";
import type { CrewFieldRequest, CrewPersonRequest, CrewPlanRequest, OffSpan } from "./request.ts";

/** What is wrong with a question about the crew beyond the shape of its parts: names that lead nowhere, order, doubles. */
export function checkCrewRequest(request: CrewPlanRequest): Issue[] {
  const siteIds = Object.keys(request.sites);
  return [
    ...(siteIds.length === 0
      ? [issue("sites", "too-few", "got an object without sites, must have at least 1")]
      : []),
    ...needSome("fields", request.fields),
    ...needSome("machines", request.machines),
    ...needSome("people", request.people),
    ...doubles("fields", request.fields),
    ...doubles("machines", request.machines),
    ...doubles("people", request.people),
    ...request.fields.flatMap((field, i) => checkField(field, `fields[${i}]`, request)),
    ...request.machines.flatMap((machine, i) => [
      ...ranged(`machines[${i}].haPerH`, machine.haPerH, CREW_LIMITS.haPerH),
      ...checkOff(machine.offUtc, `machines[${i}].offUtc`),
    ]),
    ...request.people.flatMap((person, i) => [
      ...checkHours(person, `people[${i}]`),
      ...checkOff(person.offUtc, `people[${i}].offUtc`),
    ]),
    ...checkTravel(request),
    ...checkFixed(request),
    ...checkPrevious(request),
    ...SEARCH_NUMBERS.flatMap((key) => ranged(key, request[key], CREW_LIMITS[key])),
  ];
}

const SEARCH_NUMBERS = ["timeLimitS", "horizonDays", "readyShare", "moveCostShare", "roadKmH"] as const;

function issue(path: string, code: string, what: string): Issue {
  return { path, code, message: `${path}: ${what}` };
}

function ranged(path: string, value: number | undefined, limit: Limit): Issue[] {
  const found = value === undefined ? null : limitIssue(path, value, limit);
  return found === null ? [] : [found];
}

function needSome(path: string, list: readonly unknown[]): Issue[] {
  return list.length > 0 ? [] : [issue(path, "too-few", "got an empty list, must have at least 1")];
}

function doubles(path: string, list: readonly { readonly id: string }[]): Issue[] {
  return list.flatMap(({ id }, i) =>
    list.findIndex((one) => one.id === id) === i
      ? []
      : [issue(`${path}[${i}].id`, "double", `got "${id}" a second time, must be there once`)],
  );
}

function checkField(field: CrewFieldRequest, path: string, request: CrewPlanRequest): Issue[] {
  const issues: Issue[] = [
    ...ranged(`${path}.areaHa`, field.areaHa, CREW_LIMITS.areaHa),
    ...ranged(`${path}.valuePerHa`, field.valuePerHa, CREW_LIMITS.valuePerHa),
    ...ranged(`${path}.priority`, field.priority, CREW_LIMITS.priority),
    ...ranged(`${path}.latenessPerDay`, field.latenessPerDay, CREW_LIMITS.latenessPerDay),
    ...Object.entries(field.haPerH ?? {}).flatMap(([op, rate]) =>
      ranged(`${path}.haPerH.${op}`, rate, CREW_LIMITS.haPerH),
    ),
    ...checkSwath(field.swath, `${path}.swath`),
  ];
  if (!Object.hasOwn(request.sites, field.siteId)) {
    const known = Object.keys(request.sites).join(", ");
    issues.push(issue(`${path}.siteId`, "unknown-site", `got "${field.siteId}", must be one of ${known}`));
  }
  const at = `${path}.ops`;
  const said = `got [${field.ops.join(", ")}]`;
  if (field.ops[0] !== "mow") {
    issues.push(issue(at, "order", `${said}, must begin with mow; mowing that is done stands in fixed`));
  }
  field.ops.forEach((op, i) => {
    const before = field.ops[i - 1];
    if (before !== undefined && opOrder(op) <= opOrder(before)) {
      issues.push(
        issue(at, "order", `${said}, must follow mow, ted, rake, bale or chop, wrap, haul, each once`),
      );
    }
  });
  const gathers = field.ops.filter(isGather);
  const wanted = field.route === "wilted-chop" ? "chop" : "bale";
  if (gathers.some((op) => op !== wanted)) {
    issues.push(
      issue(
        at,
        "route",
        `${said}, must hold ${wanted} and no other for ${ROUTE_CATALOGUE[field.route].label}`,
      ),
    );
  }
  if (gathers.length === 0 && field.ops.some((op) => op === "wrap" || op === "haul")) {
    issues.push(issue(at, "order", `${said}, wrap and haul must follow bale or chop`));
  }
  return issues;
}

/** The same hour twice may mean all day or none at all. */
function checkHours({ from, to }: CrewPersonRequest, path: string): Issue[] {
  if (from !== to) return [];
  const what = `got "${to}", must be another time than from (${from}); 00:00 to 24:00 is the whole day`;
  return [issue(`${path}.to`, "out-of-order", what)];
}

function checkOff(spans: readonly OffSpan[] | undefined, path: string): Issue[] {
  return (spans ?? []).flatMap(({ fromUtc, toUtc }, i) =>
    Date.parse(toUtc) > Date.parse(fromUtc)
      ? []
      : [
          issue(
            `${path}[${i}].toUtc`,
            "out-of-order",
            `got ${toUtc}, must be later than fromUtc (${fromUtc})`,
          ),
        ],
  );
}

function checkTravel(request: CrewPlanRequest): Issue[] {
  const given = request.travelMin ?? {};
  return Object.entries(given).flatMap(([key, minutes]) => {
    const path = `travelMin.${key}`;
    const [a, b, more] = key.split("|");
    if (a === undefined || b === undefined || more !== undefined) {
      return [issue(path, "bad-key", `got the key "${key}", must be two site ids with | between`)];
    }
    const strangers = [a, b].filter((id) => !Object.hasOwn(request.sites, id));
    if (strangers.length > 0) {
      return [
        issue(path, "unknown-site", `got "${strangers.join('", "')}", must be site ids of this request`),
      ];
    }
    if (a === b) {
      return [
        issue(
          path,
          "same-site",
          `got "${a}" twice, must be two different sites; a drive within one takes 0 min`,
        ),
      ];
    }
    const back = given[`${b}|${a}`];
    if (back !== undefined && back !== minutes) {
      return [issue(path, "not-symmetric", `got ${minutes} one way and ${back} the other, must be the same`)];
    }
    return ranged(path, minutes, CREW_LIMITS.travelMin);
  });
}

function checkFixed(request: CrewPlanRequest): Issue[] {
  return (request.fixed ?? []).flatMap((fixed, i) => {
    const path = `fixed[${i}]`;
    const field = request.fields.find(({ id }) => id === fixed.fieldId);
    const machine = request.machines.find(({ id }) => id === fixed.machineId);
    const issues: Issue[] = [];
    if (field === undefined) {
      issues.push(
        issue(`${path}.fieldId`, "unknown-field", `got "${fixed.fieldId}", must be the id of a field`),
      );
    } else if (!field.ops.includes(fixed.op)) {
      issues.push(
        issue(`${path}.op`, "unknown-op", `got ${fixed.op}, must be one of ${field.ops.join(", ")}`),
      );
    }
    if (machine === undefined) {
      issues.push(
        issue(
          `${path}.machineId`,
          "unknown-machine",
          `got "${fixed.machineId}", must be the id of a machine`,
        ),
      );
    } else if (machine.kind !== KIND_OF_OP[fixed.op]) {
      issues.push(
        issue(
          `${path}.machineId`,
          "wrong-kind",
          `got "${machine.id}", a ${machine.kind}; ${fixed.op} needs a ${KIND_OF_OP[fixed.op]}`,
        ),
      );
    }
    if (fixed.personId != null && !request.people.some(({ id }) => id === fixed.personId)) {
      issues.push(
        issue(`${path}.personId`, "unknown-person", `got "${fixed.personId}", must be the id of a person`),
      );
    }
    issues.push(...endsLater(path, fixed.startUtc, fixed.endUtc));
    const double = request.fixed?.findIndex((one) => one.fieldId === fixed.fieldId && one.op === fixed.op);
    if (double !== i)
      issues.push(issue(path, "double", `got ${fixed.op} of "${fixed.fieldId}" a second time`));
    return issues;
  });
}

function checkPrevious({ previous }: CrewPlanRequest): Issue[] {
  const jobs = previous?.jobs ?? [];
  const cancelled = (previous?.cancelled ?? []).flatMap(({ startUtc, endUtc }, n) =>
    endsLater(`previous.cancelled[${n}]`, startUtc, endUtc),
  );
  const wrong = jobs.flatMap(({ fieldId, op, startUtc, endUtc }, n) => {
    const path = `previous.jobs[${n}]`;
    const issues = endsLater(path, startUtc, endUtc);
    // As in a calendar: which of two is meant nobody knows.
    const isSecond = jobs.findIndex((one) => one.fieldId === fieldId && one.op === op) !== n;
    if (isSecond) issues.push(issue(`${path}.op`, "double", `got "${op}", must stand once for "${fieldId}"`));
    return issues;
  });
  return [...wrong, ...cancelled];
}

function endsLater(path: string, startUtc: string, endUtc: string | null | undefined): Issue[] {
  if (endUtc == null || Date.parse(endUtc) > Date.parse(startUtc)) return [];
  return [
    issue(`${path}.endUtc`, "out-of-order", `got ${endUtc}, must be later than startUtc (${startUtc})`),
  ];
}
