import { render } from "preact";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import sample from "../../weather-samples/settled-dry.json";
import { DemoBanner } from "../../web/place/DemoBanner.tsx";
import { DEMO_INPUTS } from "../../web/state/inputs.ts";
import { type Action, reduce } from "../../web/state/reducer.ts";
import { firstState, type Sample, type State } from "../../web/state/state.ts";

let host: HTMLDivElement;
let state: State;

function draw(): void {
  render(
    <>
      <DemoBanner source={state.source} upload={state.upload} nowMs={state.nowMs} dispatch={dispatch} />
      <label>
        Weather <select id="samples" />
      </label>
      <div id="own">
        <input aria-label="CSV file" />
      </div>
    </>,
    host,
  );
}

function dispatch(action: Action): void {
  state = reduce(state, action);
  draw();
}

beforeEach(() => {
  host = document.createElement("div");
  document.body.append(host);
  state = firstState({
    timeZone: "America/Chicago",
    locale: "en",
    nowMs: Date.parse("2026-07-01T12:00:00Z"),
    online: true,
    preferences: { units: "metric", theme: "system" },
    inputs: DEMO_INPUTS,
  });
  state = { ...state, source: { kind: "sample", ...(sample as Sample) } };
  draw();
});

afterEach(() => {
  vi.restoreAllMocks();
  render(null, host);
  host.remove();
});

const soon = (check: () => void) => vi.waitFor(check, { timeout: 5000, interval: 20 });
const button = (name: string) => {
  const found = [...host.querySelectorAll("button")].find(({ textContent }) => textContent === name);
  if (!found) throw new Error(`no button "${name}" in: ${host.textContent}`);
  return found;
};
const field = (name: string) => {
  const label = [...host.querySelectorAll("label")].find(({ textContent }) => textContent?.startsWith(name));
  const input = label && document.getElementById(label.htmlFor);
  if (!(input instanceof HTMLInputElement)) throw new Error(`no field ${name}`);
  return input;
};

function type(name: string, text: string): void {
  const input = field(name);
  input.value = text;
  input.dispatchEvent(new InputEvent("input", { bubbles: true }));
}

async function open(): Promise<void> {
  button("Use my place").click();
  await soon(() => expect(document.activeElement?.textContent).toBe("My place"));
}

test("the banner says that all is invented, and is gone with an own file", () => {
  expect(host.textContent).toContain("Invented demonstration farm and weather");
  const { series } = sample as Sample;
  state = { ...state, source: { kind: "upload", name: "own.csv", series, missing: 0 } };
  draw();
  expect(host.querySelector(".demo")).toBeNull();
});

test("a place that is found fills the form, to about a kilometre; the zone can be corrected", async () => {
  vi.spyOn(navigator.geolocation, "getCurrentPosition").mockImplementation((give) =>
    give({
      coords: { latitude: 44.3123, longitude: -98.2345, altitude: null, altitudeAccuracy: null },
    } as GeolocationPosition),
  );
  await open();
  button("Find where I am").click();
  await soon(() => expect(field("Latitude").value).toBe("44.31"));
  expect(state.upload.place).toMatchObject({ latitude: "44.31", longitude: "-98.23" });
  await soon(() => expect(host.textContent).toContain("The place is put into the form below."));
  type("Time zone", "Asia/Tokyo");
  await soon(() =>
    expect(host.querySelector(".doubt")?.textContent).toMatch(/Asia\/Tokyo is about 8 h away/),
  );
  type("Time zone", "America/Chicago");
  await soon(() => expect(host.querySelector(".doubt")).toBeNull());
});

test("a place that is denied is told with what to do, and typed coordinates do as well", async () => {
  vi.spyOn(navigator.geolocation, "getCurrentPosition").mockImplementation((_give, fail) =>
    fail?.({ code: 1 } as GeolocationPositionError),
  );
  await open();
  button("Find where I am").click();
  await soon(() =>
    expect(host.querySelector(".use-place [role=status]")?.textContent).toMatch(/not allowed/),
  );
  type("Latitude", "444");
  await soon(() => expect(host.querySelector(".field-error")?.textContent).toMatch(/Got 444/));
  type("Latitude", "44.3");
  type("Longitude", "-98.2");
  await soon(() => expect(host.textContent).toContain("The place is put into the form below."));
});

test("says what it cannot do yet, and leads to what it can", async () => {
  await open();
  expect(host.textContent).toContain("cannot fetch a forecast for a place yet");
  button("Upload a file").click();
  expect(document.activeElement?.getAttribute("aria-label")).toBe("CSV file");
  button("Pick a sample").click();
  expect(document.activeElement?.id).toBe("samples");
  button("Close").click();
  await soon(() => expect(document.activeElement?.textContent).toBe("Use my place"));
  expect(host.querySelector(".use-place")).toBeNull();
});
