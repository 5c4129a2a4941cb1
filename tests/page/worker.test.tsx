import { render } from "preact";
import { expect, test } from "vitest";
import { findWindows } from "../../model/harvest/index.ts";
import sample from "../../weather-samples/settled-dry.json";
import { Cautions } from "../../web/cautions/Cautions.tsx";
import { TextField } from "../../web/panel/Field.tsx";
import { chosen } from "../../web/state/choice.ts";
import { DEMO_INPUTS } from "../../web/state/inputs.ts";
import { readInputs } from "../../web/state/read-inputs.ts";
import type { Sample } from "../../web/state/state.ts";
import { courseOf } from "../../web/worker/compute.ts";
import type { Ask, Tell } from "../../web/worker/messages.ts";
import { SETTLED_DRY } from "./expected.ts";

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
