import type { CrewChange, CrewPlanAnswer, CrewPlanRequest } from "../../../model/crew/index.ts";
import { type CrewOp, KIND_OF_OP, OP_WORDS } from "../../../model/crew/keys.ts";

/**
 * What the reasons of a plan's changes claim, held against question and answer alone: the hours, machines and people named.
 * The questions are of July 2026 in a zone five hours behind UTC, and told on a clock of 24 hours.
 */

const MOMENT = String.raw`\w{3} (\d+) Jul (\d\d):(\d\d)`;
const ZONE_H = 5;

function momentsIn(pattern: string, text: string): number[] | null {
  const found = new RegExp(pattern.replaceAll("MOMENT", MOMENT)).exec(text);
  if (found === null) return null;
  const numbers = found.slice(1).map(Number);
  return Array.from({ length: numbers.length / 3 }, (_, i) => {
    const [day = 0, hour = 0, minute = 0] = numbers.slice(3 * i);
    return Date.UTC(2026, 6, day, hour + ZONE_H, minute);
  });
}

interface Hours {
  readonly from: number;
  readonly to: number;
}

function opOfWord(word: string): CrewOp | undefined {
  return (Object.keys(OP_WORDS) as CrewOp[]).find((op) => OP_WORDS[op] === word);
}

/** The work whose hour a reason speaks of: the later one that "will not do" or "was to be" done, else the visit's own. */
function spokenOf(change: CrewChange): CrewOp {
  const [, later] = /^(\w+) on .* will not do: /.exec(change.why) ?? [];
  const [, done] = /when (?:its crop was|its bales were|it was) to be (\w+)/.exec(change.why) ?? [];
  const byDone: Readonly<Record<string, CrewOp>> = {
    mown: "mow",
    tedded: "ted",
    raked: "rake",
    baled: "bale",
    chopped: "chop",
    wrapped: "wrap",
    hauled: "haul",
  };
  return opOfWord(later ?? "") ?? byDone[done ?? ""] ?? change.op;
}

/** Claims of one reason that question and answer do not bear out. */
function falseIn(question: CrewPlanRequest, answer: CrewPlanAnswer, change: CrewChange): string[] {
  const { why, fieldId } = change;
  const op = spokenOf(change);
  const before = question.previous?.jobs.find((job) => job.fieldId === fieldId && job.op === op);
  const job = answer.jobs.find((one) => one.fieldId === fieldId && one.op === op);
  if (before === undefined || job === undefined) return ["no such visit"];
  const now = { from: Date.parse(job.startUtc), to: Date.parse(job.endUtc) };
  const start = Date.parse(before.startUtc);
  const promised = { from: start, to: start + now.to - now.from };
  const meets = (one: Hours, other: Hours) => one.from < other.to && other.from < one.to;
  const faults: string[] = [];
  const claim = (isTrue: boolean, fault: string) => void (isTrue || faults.push(fault));

  const [ready] = momentsIn("(?:is not ready for it|would do for it come) before MOMENT", why) ?? [];
  if (ready !== undefined) {
    claim(promised.from < ready, "ready at the hour that was promised");
    claim(now.from >= ready, "not ready at its hour in the plan");
  }
  const [closes] = momentsIn("window closes (?:on|at) MOMENT", why) ?? [];
  if (closes !== undefined) {
    claim(promised.to > closes, "open at the hour that was promised");
    claim(now.to <= closes, "closed at its hour in the plan");
  }
  const gap = momentsIn("no hours are fit for it between MOMENT and MOMENT", why);
  if (gap !== null) {
    const [from = 0, to = 0] = gap;
    claim(meets(promised, { from, to }), "fit at the hour that was promised");
    claim(!meets(now, { from, to }), "not fit at its hour in the plan");
  }

  // Who is where then: at the hour that was promised, or as soon as it is ready.
  const [, kind, name, way] = /the (\w+) is at (\S+?)( or on its way)? (?:then|when)/.exec(why) ?? [];
  const siteOf = (id: string) => question.fields.find((field) => field.id === id)?.siteId ?? "";
  const driveMs = (id: string) => {
    const [a, b] = [siteOf(id), siteOf(fieldId)];
    const minutes = question.travelMin?.[`${a}|${b}`] ?? question.travelMin?.[`${b}|${a}`] ?? 60;
    return a === b ? 0 : Math.ceil(minutes / answer.slotMin) * answer.slotMin * 60_000;
  };
  const first = why.includes(", and ") ? (gap?.[1] ?? ready ?? promised.from) : promised.from;
  const asked = { from: first, to: first + now.to - now.from };
  const isThere = (one: CrewPlanAnswer["jobs"][number], drive: number) =>
    meets({ from: Date.parse(one.startUtc) - drive, to: Date.parse(one.endUtc) + drive }, asked);
  if (name !== undefined) {
    const works = answer.jobs.filter((one) => answer.names.fields[one.fieldId] === name);
    const some = works.some(
      (one) => KIND_OF_OP[one.op] === kind && isThere(one, way === undefined ? 0 : driveMs(one.fieldId)),
    );
    claim(some, `the ${kind} is not at ${name}`);
  }
  const clockH = (utcMs: number) => (utcMs / 3_600_000 - ZONE_H) % 24;
  const hoursOf = (clock: string) => Number(clock.slice(0, 2)) + Number(clock.slice(3)) / 60;
  const atWork = question.people.filter(
    ({ from, to }) =>
      hoursOf(from) <= clockH(asked.from) &&
      hoursOf(to) >= clockH(asked.from) + (asked.to - asked.from) / 3_600_000,
  );
  if (why.includes("everybody at work is at other fields")) {
    const busy = (id: string) =>
      answer.jobs.some(
        (one) => one.personId === id && one.fieldId !== fieldId && isThere(one, driveMs(one.fieldId)),
      );
    claim(
      atWork.every(({ id }) => busy(id)),
      "somebody at work is free",
    );
  }
  if (/nobody (works|stays)/.test(why)) claim(atWork.length === 0, "somebody is at work throughout");

  const last = answer.jobs.find((one) => {
    const [, word] = /^(\w+) before it ends later/.exec(why) ?? [];
    return one.fieldId === fieldId && one.op === opOfWord(word ?? "");
  });
  if (last !== undefined) claim(Date.parse(last.endUtc) > promised.from, "the work before it ends in time");
  if (why.includes("is off at that hour")) {
    const offs = question.machines.flatMap((one) => (one.kind === KIND_OF_OP[op] ? (one.offUtc ?? []) : []));
    const isOff = offs.some(({ fromUtc, toUtc }) =>
      meets({ from: Date.parse(fromUtc), to: Date.parse(toUtc) }, promised),
    );
    claim(isOff, "it is not off then");
  }
  return faults;
}

/** Visits of two fields each of which moves because the machine is at the other. */
function circlesIn({ changes, names }: CrewPlanAnswer): string[] {
  const blames = changes.flatMap((change) => {
    const [, name] = / is at (\S+?)(?: or on its way)? (?:then|when)/.exec(change.why) ?? [];
    const by = `${names.fields[change.fieldId]}, ${change.op}`;
    return name === undefined ? [] : [{ by, of: `${name}, ${spokenOf(change)}` }];
  });
  return blames
    .filter(({ by, of }) => blames.some((other) => other.by === of && other.of === by))
    .map(({ by, of }) => `${by} because of ${of}, and that because of ${by}`);
}

/** Every visit that moved, with what is false in the reason that is given; none is as it should be. */
export function falseReasons(question: CrewPlanRequest, answer: CrewPlanAnswer): string[] {
  const moved = answer.changes.filter(
    ({ fromUtc, toUtc }) => fromUtc !== null && toUtc !== null && fromUtc !== toUtc,
  );
  const faults = moved.flatMap((change) =>
    falseIn(question, answer, change).map((fault) => `${fault}: ${change.text}`),
  );
  return [...faults, ...circlesIn(answer)];
}
