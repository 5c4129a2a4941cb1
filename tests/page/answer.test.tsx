import { render } from "preact";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { Cautions } from "../../web/cautions/Cautions.tsx";
import { MannerSwitch } from "../../web/format/MannerSwitch.tsx";
import type { Units } from "../../web/format/units.ts";

let host: HTMLDivElement;

beforeEach(() => {
  host = document.createElement("div");
  document.body.append(host);
});

afterEach(() => {
  render(null, host);
  host.remove();
});

test("the switch of units is a pair of radios, each 44 px high", async () => {
  const told: Units[] = [];
  const draw = (units: Units) =>
    render(<MannerSwitch units={units} onUnits={(next) => told.push(next)} />, host);
  draw("metric");
  const radios = [...host.querySelectorAll<HTMLInputElement>("input[type=radio]")];
  expect(radios.map(({ value, checked }) => [value, checked])).toEqual([
    ["metric", true],
    ["us", false],
  ]);
  expect(new Set(radios.map(({ name }) => name)).size).toBe(1);
  for (const label of host.querySelectorAll("label"))
    expect(label.getBoundingClientRect().height).toBeGreaterThanOrEqual(44);
  radios[1]?.click();
  expect(told).toEqual(["us"]);
  draw("us");
  await vi.waitFor(() => expect(radios[1]?.checked).toBe(true));
});

test("cautions: orders always in sight, the reason one tap below, none of them clears a feed", async () => {
  render(<Cautions crop="sorghum-sudan" route="wrapped-bales" />, host);
  const boxes = [...host.querySelectorAll("details")];
  expect(boxes).toHaveLength(2);
  for (const box of boxes) {
    expect(box.open).toBe(false);
    const orders = [...box.querySelectorAll<HTMLElement>("summary .order")];
    expect(orders.length).toBeGreaterThan(0);
    expect(orders.length).toBeLessThanOrEqual(3);
    for (const order of orders) expect(order.checkVisibility()).toBe(true);
    const reason = box.querySelector<HTMLElement>(":scope > p");
    expect(reason?.checkVisibility()).toBe(false);
    box.querySelector("summary")?.click();
    await vi.waitFor(() => expect(reason?.checkVisibility()).toBe(true));
    expect(orders[0]?.checkVisibility()).toBe(true);
  }
  expect(host.textContent).toContain("Nitrate and prussic acid sampled?");
  expect(host.textContent).not.toMatch(/\bsafe\b/i);
});
