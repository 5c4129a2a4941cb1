import { render } from "preact";
import { useReducer } from "preact/hooks";
import { beforeEach, expect, test, vi } from "vitest";
import { userEvent } from "vitest/browser";
import type { Manner } from "../../web/format/manner.ts";
import { Handling } from "../../web/handling/Handling.tsx";
import type { Action } from "../../web/state/action.ts";
import { DEMO_INPUTS, type Inputs, type TextField } from "../../web/state/inputs.ts";
import { reduce } from "../../web/state/reducer.ts";
import { firstState, type State } from "../../web/state/state.ts";
import { pageHost } from "../support/page-host.ts";

const host = pageHost();
let state: State;

beforeEach(() => {
  localStorage.clear();
});

const soon = (check: () => void) => vi.waitFor(check, { timeout: 5000, interval: 20 });
const NEVER: Promise<never> = new Promise(() => {});

function inputsOf(
  routes: readonly (keyof Inputs["routes"])[],
  texts: Partial<Record<TextField, string>>,
): Inputs {
  const off = { on: false, package: null, store: null };
  const on = { ...off, on: true };
  const none = Object.fromEntries(Object.keys(DEMO_INPUTS.routes).map((key) => [key, off]));
  const own = Object.entries(texts).map(([field, text]) => [field, { text, units: "metric" }]);
  return {
    ...DEMO_INPUTS,
    crop: "drought-corn",
    texts: { ...DEMO_INPUTS.texts, ...Object.fromEntries(own) },
    routes: { ...none, ...Object.fromEntries(routes.map((key) => [key, on])) } as Inputs["routes"],
  };
}

function Page({ inputs, units }: { readonly inputs: Inputs; readonly units: Manner["units"] }) {
  const [now, dispatch] = useReducer<State, Action, undefined>(reduce, undefined, () =>
    firstState({
      timeZone: "America/Chicago",
      locale: "en-GB",
      nowMs: Date.parse("2026-07-16T18:00:00Z"),
      online: true,
      preferences: { units, theme: "system" },
      inputs,
    }),
  );
  state = now;
  const manner: Manner = { units, locale: "en-GB", hour12: false, zone: "America/Chicago" };
  return (
    <Handling
      state={now}
      picture={null}
      choice={null}
      manner={manner}
      dispatch={dispatch}
      tries={() => NEVER}
    />
  );
}

function show(inputs: Inputs, units: Manner["units"] = "metric"): void {
  render(<Page inputs={inputs} units={units} />, host);
}

function labelled(text: string): HTMLInputElement {
  const label = [...host.querySelectorAll("label")].find((one) => one.textContent?.startsWith(text));
  const input = label?.htmlFor ? document.getElementById(label.htmlFor) : label?.querySelector("input");
  if (!(input instanceof HTMLInputElement)) throw new Error(`no field "${text}"`);
  return input;
}

const button = (name: string) =>
  [...host.querySelectorAll("button")].find((one) => one.textContent?.startsWith(name));

async function press(name: string): Promise<void> {
  const found = button(name);
  if (!found) throw new Error(`no button "${name}"`);
  await userEvent.click(found);
}

const topic = (name: string) => host.querySelector(`section[aria-label="${name}"]`)?.textContent ?? "";

test("the recommended height is taken over into the stubble with one tap, and taken back with another", async () => {
  show(inputsOf(["wrapped-bales"], { stubbleCm: "15", yieldTHa: "6" }));
  expect(topic("Cutting height")).toContain("cut at 31 cm, nitrate not being tested");
  await press("Cut at 31 cm");
  await soon(() => expect(state.inputs.texts.stubbleCm.text).toBe("31"));
  expect(topic("Cutting height")).toContain("nothing is given up");
  await press("Undo: recommended stubble");
  await soon(() => expect(state.inputs.texts.stubbleCm.text).toBe("15"));
  // One's own mind counts as well.
  await userEvent.fill(labelled("Stubble, as you want it"), "22");
  await soon(() => expect(topic("Cutting height")).toContain("Against 22 cm now"));
});

test("grazing: no strips before a laboratory result, strips under the first limit, none over it", async () => {
  show(inputsOf(["grazing"], { stubbleCm: "15", yieldTHa: "6", areaHa: "6", dailyNeedKgDm: "900" }));
  expect(topic("Grazing")).toContain("no forced strips, light stocking");
  expect(host.querySelectorAll(".graze-fence")).toHaveLength(0);
  await userEvent.fill(labelled("Nitrate"), "500");
  await soon(() => expect(host.querySelectorAll(".graze-fence").length).toBeGreaterThan(0));
  expect(topic("Grazing")).not.toContain("no forced strips");
  await userEvent.fill(labelled("Nitrate"), "900");
  await soon(() => expect(topic("Grazing")).toContain("Nitrate is over the first limit"));
  await userEvent.fill(labelled("Nitrate"), "some");
  await soon(() => expect(host.querySelector(".field-error")?.textContent).toContain('Got "some"'));
  expect(labelled("Nitrate").value).toBe("some");
  expect(topic("Grazing")).toContain("Nitrate is not tested");
});

test("a probe is kept over a reload in °C or °F; a wrong one stays with its error; the fire service comes first", async () => {
  const inputs = inputsOf(["dry-hay"], {});
  show(inputs);
  expect(labelled("Probed on").value).toBe("2026-07-16");
  await userEvent.fill(labelled("Inside the stack"), "900");
  await press("Write it down");
  await soon(() =>
    expect(topic("Heating log")).toContain("Got 900, must be at least -60 and at most 400 °C."),
  );
  expect(labelled("Inside the stack").value).toBe("900");
  await userEvent.fill(labelled("Inside the stack"), "72");
  await press("Write it down");
  await soon(() =>
    expect(topic("Heating log")).toContain("Call the fire service before the stack is opened"),
  );
  expect(host.querySelector("tr.applies")?.textContent).toContain("from 71 °C applies");

  render(null, host);
  show(inputs, "us");
  expect(topic("Heating log")).toContain("Thursday 16 Jul: 162 °F at the hottest");
  await press("Begin a new log");
  await soon(() => expect(host.querySelectorAll(".heat-point")).toHaveLength(0));
  await press("Undo: heating log");
  await soon(() => expect(host.querySelectorAll(".heat-point")).toHaveLength(1));
});

test("another route has its own topics; a delay and a delivery out of range are said by their fields", async () => {
  show(inputsOf(["wrapped-bales", "wilted-chop"], { stubbleCm: "31" }));
  expect(topic("From baler to film")).toContain("Wrap within 12 hours");
  await userEvent.fill(labelled("From baler to film"), "18");
  await soon(() => expect(topic("From baler to film")).toContain("butyric acid is likely"));
  await userEvent.fill(labelled("From baler to film"), "-3");
  await soon(() => expect(topic("From baler to film")).toContain("must be at least 0"));
  expect(labelled("From baler to film").value).toBe("-3");
  await userEvent.click(labelled("Wilted chop"));
  await soon(() => expect(topic("Chop and pack")).toContain("Pack with 0.4 t of tractor"));
  await userEvent.fill(labelled("Arriving at the store"), "60");
  await soon(() => expect(topic("Chop and pack")).toContain("60 t/h arriving needs 24 t"));
  expect(host.textContent).not.toMatch(/\bsafe/i);
});
