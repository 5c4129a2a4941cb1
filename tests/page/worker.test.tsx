import { render } from "preact";
import { expect, test } from "vitest";
import { commands } from "vitest/browser";
import { findWindows } from "../../model/harvest/index.ts";
import sample from "../../weather-samples/settled-dry.json";
import { Cautions } from "../../web/cautions/Cautions.tsx";
import { TextField } from "../../web/panel/Field.tsx";
import { chosen } from "../../web/state/choice.ts";
import { DEMO_INPUTS } from "../../web/state/inputs.ts";
import { readInputs } from "../../web/state/read-inputs.ts";
import type { Sample } from "../../web/state/state.ts";
import { courseOf, drydownQuestion } from "../../web/worker/compute.ts";
import type { Ask, Tell } from "../../web/worker/messages.ts";
import { SETTLED_DRY } from "./expected.ts";

declare module "vitest/browser" {
  interface BrowserCommands {
    /** What the built command line prints for this request, as JSON. */
    readonly commandLine: (verb: "windows" | "drydown", request: string) => Promise<string>;
  }
}

const { series } = sample as Sample;

function question() {
  const read = readInputs(DEMO_INPUTS).question;
  if (read === null) throw new Error("no question");
  return { ...read, weather: series };
}

/** The first message of this kind from a worker that was asked for a board. */
function told(worker: Worker, kind: Tell["kind"]): Promise<Tell> {
  return new Promise((resolve, reject) => {
    worker.addEventListener("message", ({ data }: MessageEvent<Tell>) => {
      if (data.kind === kind) resolve(data);
    });
    worker.addEventListener("error", (event) => reject(new Error(event.message)));
  });
}

/** Engines may differ in the last bit of Math.exp: all else, texts and counts too, is the same. */
function expectAlike(here: unknown, there: unknown, path = "answer"): void {
  if (typeof here === "number" && typeof there === "number") {
    if (Math.abs(here - there) > 1e-9 * Math.max(1, Math.abs(here)))
      expect([path, here]).toEqual([path, there]);
  } else if (typeof here === "object" && here !== null && typeof there === "object" && there !== null) {
    const keys = (of: object) => Object.keys(JSON.parse(JSON.stringify(of))).sort();
    expect([path, ...keys(here)]).toEqual([path, ...keys(there)]);
    for (const key of keys(here))
      expectAlike(here[key as keyof typeof here], there[key as keyof typeof there], `${path}.${key}`);
  } else expect([path, here]).toEqual([path, there]);
}

test("the worker of the page answers as the model does when it is called directly", async () => {
  const worker = new Worker(new URL("../../web/worker/worker.ts", import.meta.url), { type: "module" });
  const request = question();
  const answered = told(worker, "board");
  const ask: Ask = { kind: "board", id: 1, request, selection: null };
  worker.postMessage(ask);
  const tell = await answered;
  worker.terminate();
  if (tell.kind !== "board") throw new Error("no board");
  const direct = findWindows(request);
  expect(direct).toEqual({ ok: true, value: tell.answer });
  const choice = chosen(tell.answer, null);
  expect(choice && courseOf(request, choice)).toEqual({ ok: true, value: tell.course?.course });
});

test("the same question for another reader is answered once, with its odds, and gives way to a newer one", async () => {
  const worker = new Worker(new URL("../../web/worker/worker.ts", import.meta.url), { type: "module" });
  const request = { ...question(), cutHours: [9] };
  const ask = (id: number, units: "metric" | "us", whole: boolean): Ask => ({
    kind: "board",
    id,
    request,
    selection: null,
    speech: { units, locale: "en-US" },
    whole,
  });
  const answered = told(worker, "board");
  worker.postMessage(ask(1, "us", true));
  const tell = await answered;
  if (tell.kind !== "board") throw new Error("no board");
  expect([tell.id, tell.answer.odds?.draws]).toEqual([1, 51]);
  expect(tell.bestBefore).not.toBeUndefined();
  expect(tell.course?.course.odds).toBeDefined();
  const next = told(worker, "board");
  worker.postMessage(ask(2, "metric", true));
  worker.postMessage(ask(3, "metric", false));
  const last = await next;
  worker.terminate();
  expect(last.kind === "board" && [last.id, last.answer.odds]).toEqual([3, undefined]);
});

test("the browser's numbers are those of Node", () => {
  const outcome = findWindows(question());
  if (!outcome.ok) throw new Error("no answer");
  const choice = chosen(outcome.value, null);
  const course = choice && courseOf(question(), choice);
  if (!course?.ok) throw new Error("no course");
  expect(outcome.value.best).toEqual(SETTLED_DRY.best);
  expect(choice?.route?.windows).toEqual(SETTLED_DRY.windows);
  const { moistureWb } = course.value.hours;
  SETTLED_DRY.moistureWb.forEach(({ hour, wb }) => {
    // Engines may differ in the last bit of Math.exp.
    expect(Math.abs((moistureWb[hour] ?? Number.NaN) - wb)).toBeLessThan(1e-9);
  });
});

test("board, chances, bands and what a reading taught are in the worker those of the command line, for one seed", async () => {
  const base = { ...question(), cutHours: [9], draws: 24, seed: 7 };
  const plain = findWindows(base);
  const lying = plain.ok ? plain.value.options.find(({ kind }) => kind === "swath") : undefined;
  if (!lying?.cutUtc) throw new Error("no cut");
  const atUtc = new Date(Date.parse(lying.cutUtc) + 30 * 3_600_000).toISOString().replace(".000Z", "Z");
  // It dries faster than expected; the person stands by it.
  const readings = [{ atUtc, method: "microwave" as const, moistureWb: 0.3, confirmed: true }];
  const request = { ...base, readCuts: [{ cutUtc: lying.cutUtc, route: "dry-hay" as const, readings }] };
  const worker = new Worker(new URL("../../web/worker/worker.ts", import.meta.url), { type: "module" });
  const answered = told(worker, "board");
  const selection = { optionId: lying.id, route: "dry-hay" as const };
  const ask: Ask = { kind: "board", id: 1, request, selection, whole: true };
  worker.postMessage(ask);
  const tell = await answered;
  worker.terminate();
  if (tell.kind !== "board") throw new Error("no board");
  const { answer, course } = tell;
  expect(answer.readings?.cuts[0]?.used).toBe(1);
  expect(answer.odds?.draws).toBe(24);
  // The page compares routes by itself, when that is looked at.
  const { comparison: _, ...windows } = JSON.parse(
    await commands.commandLine("windows", JSON.stringify(request)),
  );
  const ranksOf = ({ options }: Pick<typeof answer, "options">) =>
    options.flatMap(({ id, routes }) => routes.map(({ route, rank }) => [id, route, rank]));
  expect(ranksOf(answer)).toEqual(ranksOf(windows));
  expectAlike(answer, windows);

  // The row's own course, its 200 draws bent to the reading.
  const row = chosen(answer, selection);
  const asked = row && drydownQuestion(request, row);
  if (!asked || !course) throw new Error("no course");
  expect(course.course.odds?.draws).toBe(200);
  expect(course.course.odds?.readings?.effectiveSize).toBeLessThan(700);
  const drydown = JSON.stringify({ ...asked, readings, draws: 200 });
  expectAlike(course.course, JSON.parse(await commands.commandLine("drydown", drydown)));
});

test("an error stands beside its field, and what was typed stays", () => {
  const host = document.createElement("div");
  document.body.append(host);
  render(
    <TextField
      label="Moisture"
      unit="%"
      value="0.78"
      error="Got 0.78, must be at least 5"
      onText={() => {}}
    />,
    host,
  );
  const input = host.querySelector("input");
  expect(input?.value).toBe("0.78");
  expect(input?.getAttribute("aria-invalid")).toBe("true");
  const described = document.getElementById(input?.getAttribute("aria-describedby") ?? "");
  expect(described?.textContent).toContain("must be at least 5");
  host.remove();
});

test.each(["dry-hay", "wrapped-bales", "wilted-chop", "direct-chop", "green-chop", "grazing"] as const)(
  "the cautions of %s stand open and defer to those who decide",
  (route) => {
    const host = document.createElement("div");
    render(<Cautions crop="sudangrass" route={route} />, host);
    expect(host.querySelectorAll(".caution")).toHaveLength(2);
    // The orders stand in the part that is always in sight and cannot be closed; only their reasons fold.
    for (const box of host.querySelectorAll(".caution"))
      expect(box.querySelectorAll("summary .order").length).toBeGreaterThan(0);
    expect(host.querySelector("button")).toBeNull();
    expect(host.textContent).toMatch(/prussic acid/);
    expect(host.textContent).toMatch(/laboratory, your veterinarian, the label and your extension service/);
    expect(host.textContent).not.toMatch(/\bis safe\b/);
  },
);
