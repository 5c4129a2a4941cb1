import { render } from "preact";
import { useReducer } from "preact/hooks";
import { expect, test, vi } from "vitest";
import { userEvent } from "vitest/browser";
import type { Manner } from "../../web/format/manner.ts";
import { FieldPanel } from "../../web/panel/FieldPanel.tsx";
import { Levers } from "../../web/panel/Levers.tsx";
import type { Action } from "../../web/state/action.ts";
import { DEMO_INPUTS } from "../../web/state/inputs.ts";
import { readInputs } from "../../web/state/read-inputs.ts";
import { reduce } from "../../web/state/reducer.ts";
import { firstState, type State } from "../../web/state/state.ts";
import { pageHost } from "../support/page-host.ts";

const host = pageHost();
let state: State;

const soon = (check: () => void) => vi.waitFor(check, { timeout: 5000, interval: 20 });

function Panel({ units, locale }: Pick<Manner, "units" | "locale">) {
  const [now, dispatch] = useReducer<State, Action, undefined>(reduce, undefined, () =>
    firstState({
      timeZone: "America/Chicago",
      locale,
      nowMs: 0,
      online: true,
      preferences: { units, theme: "system" },
      inputs: DEMO_INPUTS,
    }),
  );
  state = now;
  const manner: Manner = { units, locale, hour12: units === "us", zone: "America/Chicago" };
  const props = { inputs: now.inputs, read: readInputs(now.inputs, manner), dispatch, manner };
  return (
    <>
      <Levers {...props} past={now.past} effects={{ width: { spread: "9 h sooner" } }} />
      <FieldPanel {...props} />
    </>
  );
}

function show(units: Manner["units"], locale: string): void {
  render(<Panel units={units} locale={locale} />, host);
}

function labelled(text: string): HTMLInputElement {
  const label = [...host.querySelectorAll("label")].find((one) => one.textContent?.startsWith(text));
  const input = label?.htmlFor ? document.getElementById(label.htmlFor) : label?.querySelector("input");
  if (!(input instanceof HTMLInputElement)) throw new Error(`no field "${text}"`);
  return input;
}

const undoText = () => host.querySelector(".undo button")?.textContent;

test("a preset sets the width, the share is told, and undo names and takes it back", async () => {
  show("metric", "en-GB");
  expect(undoText()).toBe("Nothing to undo");
  expect(labelled("Spread 90 %").parentElement?.textContent).toBe("Spread 90 %, 9 h sooner");
  await userEvent.click(labelled("Spread 90 %"));
  await soon(() => expect(labelled("Swath width").value).toBe("2.7"));
  expect(host.querySelector(".covered")?.textContent).toBe("The swath covers 90 % of the cut.");
  await userEvent.click(labelled("Impeller"));
  await soon(() => expect(undoText()).toBe("Undo: conditioning"));
  await userEvent.keyboard("{Control>}z{/Control}");
  await soon(() => expect(undoText()).toBe("Undo: swath width"));
  expect(state.inputs.conditioning).toBe("roll");
  await userEvent.click(host.querySelector(".undo button") as HTMLButtonElement);
  await soon(() => expect(labelled("Swath width").value).toBe("2.1"));
});

test("in a field of text Ctrl+Z is the browser's own", async () => {
  show("metric", "en-GB");
  await userEvent.click(labelled("Rollers").checked ? labelled("Impeller") : labelled("Rollers"));
  labelled("Area").focus();
  await userEvent.keyboard("{Control>}z{/Control}");
  expect(state.inputs.conditioning).toBe("impeller");
});

test("US customary units, a 12 hour clock, and the yield by bales with its error beside it", async () => {
  show("us", "en-US");
  expect(labelled("Mower cut").value).toBe("10");
  expect(labelled("Work from").value).toBe("7 am");
  expect(labelled("Cut hours").value).toBe("9 am, 1 pm, 5 pm");
  expect(host.querySelector(".result")?.textContent).toBe("1.7 ton/ac (3,390 lb/ac) of dry matter");
  await userEvent.click(labelled("Bales"));
  const wrong = () => [...host.querySelectorAll<HTMLInputElement>('.yield [aria-invalid="true"]')];
  // The yield is told the new way, and nothing is scolded.
  await soon(() => expect(labelled("Weight of a bale").value).toBe("790"));
  expect(host.querySelector(".result")?.textContent).toContain("(3,390 lb/ac) of dry matter");
  expect(wrong()).toHaveLength(0);
  const bales = host.querySelectorAll<HTMLInputElement>(".yield input[type=text]")[0];
  const weight = labelled("Weight of a bale");
  if (!bales) throw new Error("no field");
  await userEvent.fill(bales, "");
  expect(wrong()).toHaveLength(0);
  await userEvent.click(weight);
  await soon(() => expect(wrong()).toEqual([bales]));
  await userEvent.fill(bales, "4");
  await userEvent.fill(weight, "1000");
  await soon(() =>
    expect(host.querySelector(".result")?.textContent).toBe("1.68 ton/ac (3,360 lb/ac) of dry matter"),
  );
  expect(wrong()).toHaveLength(0);
});

test("a comma parts thousands where its reader lives: another one is refused beside the field with what to type", async () => {
  show("us", "en-US");
  const area = labelled("Area");
  await userEvent.fill(area, "1,500");
  await userEvent.tab();
  expect(area.getAttribute("aria-invalid")).not.toBe("true");
  expect(readInputs(state.inputs).question?.field.areaHa).toBeCloseTo(1500 * 0.40468564224, 6);
  await userEvent.fill(area, "1,5");
  await userEvent.tab();
  await soon(() => expect(area.getAttribute("aria-invalid")).toBe("true"));
  expect(area.closest(".field")?.textContent).toContain(
    'Got "1,5": here a comma parts thousands, as in 1,500. Type 1.5, with a point.',
  );
  expect(area.value).toBe("1,5");
});

test("a time typed in either way stays as typed until the field is left", async () => {
  show("us", "en-US");
  const field = labelled("Work from");
  await userEvent.fill(field, "06:30");
  await soon(() => expect(field.value).toBe("06:30"));
  await userEvent.tab();
  await soon(() => expect(field.value).toBe("6:30 am"));
  expect(readInputs(state.inputs).question?.workHours?.from).toBe("06:30");
});

test("every typed number and time is told what it does and how far it goes", () => {
  show("metric", "en-GB");
  const hintOf = (label: string) => {
    const hints = (labelled(label).getAttribute("aria-describedby") ?? "").split(" ");
    return hints.map((id) => document.getElementById(id)?.textContent ?? "").join(" ");
  };
  expect(hintOf("Mower cut")).toBe("mown in one pass; 0.5 to 30 m");
  expect(hintOf("Swath width")).toMatch(/^wider dries faster; [\d.]+ to [\d.]+ m/);
  expect(hintOf("Mowing")).toMatch(/^faster has the field down sooner; empty = typical/);
  expect(hintOf("Baler")).toMatch(/^faster fits shorter windows; empty = typical/);
  expect(hintOf("Chopper")).toMatch(/^faster fits shorter windows; empty = /);
  expect(hintOf("Work from")).toBe("earlier meets more dew; 00:00 to 23:59");
  expect(hintOf("to")).toBe("later has longer windows; to 24:00, or before the start: through the night");
});
