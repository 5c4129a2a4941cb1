import { render } from "preact";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import sample from "../../weather-samples/settled-dry.json";
import { UploadPanel } from "../../web/panel/WeatherPanel.tsx";
import { WeatherBar } from "../../web/place/WeatherBar.tsx";
import type { Action } from "../../web/state/action.ts";
import { DEMO_INPUTS } from "../../web/state/inputs.ts";
import { reduce } from "../../web/state/reducer.ts";
import { firstState, type Sample, type State } from "../../web/state/state.ts";
import type { ForecastPlace } from "../../web/weather/forecast.ts";

let host: HTMLDivElement;
let state: State;
let asked: ForecastPlace[];

function draw(): void {
  render(
    <>
      <WeatherBar state={state} dispatch={dispatch} ask={(place) => asked.push(place)} />
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
  asked = [];
  host = document.createElement("div");
  document.body.append(host);
  state = firstState({
    timeZone: "",
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
  expect(host.querySelector(".weather-bar")?.textContent).toContain("Your file: own.csv");
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
  host.querySelector<HTMLElement>(".place-more summary")?.click();
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
  await soon(() => expect(host.querySelector(".field-error")).toBeNull());
  button("Get the forecast").click();
  expect(asked).toEqual([
    { latitude: 44.3, longitude: -98.2, elevationM: null, timeZone: null, provider: null },
  ]);
  await soon(() => expect(host.querySelector(".use-place")).toBeNull());
});

test("a pair from a map fills both fields, the zone follows the place until another is typed", async () => {
  await open();
  const latitude = field("Latitude");
  const clipboardData = new DataTransfer();
  clipboardData.setData("text", "-43.9, 171.7");
  latitude.dispatchEvent(new ClipboardEvent("paste", { clipboardData, bubbles: true, cancelable: true }));
  await soon(() => expect(field("Longitude").value).toBe("171.7"));
  expect(latitude.value).toBe("-43.9");
  await soon(() => expect(state.upload.place.timeZone).toBe("Pacific/Auckland"));
  type("Latitude", "44.3");
  type("Longitude", "-98.2");
  await soon(() => expect(state.upload.place.timeZone).toBe("America/Chicago"));
  dispatch({ kind: "place", field: "timeZone", text: "America/Denver" });
  type("Longitude", "16.4");
  await soon(() => expect(state.upload.zoneFound).toMatch(/^Europe/));
  expect(state.upload.place.timeZone).toBe("America/Denver");
});

test("no forecast is asked for without a place; the empty fields say so", async () => {
  await open();
  button("Get the forecast").click();
  await soon(() => expect(host.querySelectorAll(".field-error").length).toBe(2));
  expect(host.textContent).toContain("Empty; a number of degrees is needed.");
  expect(asked).toEqual([]);
});

test("a zone corrected by hand goes with the question; one that was found does not", async () => {
  await open();
  type("Latitude", "48.2");
  type("Longitude", "16.4");
  host.querySelector<HTMLElement>(".place-more summary")?.click();
  type("Time zone", "Europe/Berlin");
  button("Get the forecast").click();
  expect(asked.at(-1)?.timeZone).toBe("Europe/Berlin");
  const place = { latitude: 48.2, longitude: 16.4, elevationM: null, timeZone: null, provider: null };
  const series = { ...(sample as Sample).series, provider: "met-norway", origin: "forecast" as const };
  dispatch({ kind: "forecast-asked", place });
  const site = { latitude: 48.2, longitude: 16.4, elevationM: 171, timeZone: "Europe/Vienna" };
  dispatch({ kind: "forecast-got", place, forecast: { series: { ...series, site }, notes: [] } });
  expect(host.querySelector(".weather-bar")?.textContent).toContain("48.20° N 16.40° E, MET Norway");
  expect(state.upload.place).toMatchObject({ elevationM: "171", timeZone: "Europe/Vienna" });
  button("Another place").click();
  await soon(() => expect(host.querySelector(".use-place")).not.toBeNull());
  type("Latitude", "44.3");
  type("Longitude", "-98.2");
  button("Get the forecast").click();
  expect(asked.at(-1)).toMatchObject({ latitude: 44.3, elevationM: null, timeZone: null });
});

test("no service answers: why, service by service, and three ways on", async () => {
  const place = { latitude: 48.2, longitude: 16.4, elevationM: null, timeZone: null, provider: null };
  dispatch({ kind: "forecast-asked", place });
  const failure = { message: "No weather service answered.", lines: ["nws: status 500"], fields: {} };
  dispatch({ kind: "forecast-failed", place, failure });
  expect(host.querySelector("[role=alert]")?.textContent).toContain("nws: status 500");
  expect(host.querySelector("[role=alert]")?.textContent).toContain("The board keeps the weather it had.");
  button("Try again").click();
  expect(asked).toEqual([place]);
});

test("leads to file and samples, and closes to where it was opened", async () => {
  await open();
  button("Upload a file").click();
  expect(document.activeElement?.getAttribute("aria-label")).toBe("CSV file");
  button("Pick a sample").click();
  expect(document.activeElement?.id).toBe("samples");
  button("Close").click();
  await soon(() => expect(document.activeElement?.textContent).toBe("Use my place"));
  expect(host.querySelector(".use-place")).toBeNull();
});

test("the place of an own file: what is wrong stands beside its field as it is left", async () => {
  const panel = () => render(<UploadPanel upload={state.upload} dispatch={act} />, host);
  const act = (action: Action) => {
    state = reduce(state, action);
    panel();
  };
  panel();
  type("Latitude", "444");
  await soon(() => expect(state.upload.place.latitude).toBe("444"));
  expect(host.querySelector(".field-error")).toBeNull();
  field("Latitude").dispatchEvent(new FocusEvent("blur"));
  await soon(() => expect(host.querySelector(".field-error")?.textContent).toMatch(/Got 444, must be/));
  type("Latitude", "44.3");
  await soon(() => expect(host.querySelector(".field-error")).toBeNull());
});

test("an own file is read as it is chosen: what its place lacks is asked for, and it is used by a press of its own", async () => {
  const panel = () => render(<UploadPanel upload={state.upload} dispatch={act} />, host);
  const act = (action: Action) => {
    state = reduce(state, action);
    panel();
  };
  panel();
  const choose = () => {
    const held = new DataTransfer();
    const rows = (sample as Sample).series.hours.startUtc
      .slice(0, 48)
      .map((start) => `${start},20,50,2,100,0`);
    const head = "startUtc,airTempC,relHumidityPct,windSpeedMps,solarWm2,rainMm";
    held.items.add(new File([[head, ...rows].join("\n")], "own.csv", { type: "text/csv" }));
    const input = field("CSV file");
    input.files = held.files;
    input.dispatchEvent(new Event("change", { bubbles: true }));
  };
  choose();
  await soon(() => expect(host.querySelectorAll(".field-error").length).toBeGreaterThan(3));
  expect(button("Read the file")).toBeTruthy();
  for (const [name, text] of [
    ["Latitude", "44.3"],
    ["Longitude", "-98.2"],
    ["Elevation", "400"],
    ["Wind measured at", "2"],
    ["Time zone of the farm", "America/Chicago"],
  ] as const)
    type(name, text);
  await soon(() => expect(host.querySelector(".field-error")).toBeNull());
  const before = state.source;
  choose();
  await soon(() => expect(state.upload.pending?.name).toBe("own.csv"));
  expect(state.source).toBe(before);
  button("Use this weather").click();
  await soon(() => expect(state.source).toMatchObject({ kind: "upload", name: "own.csv" }));
});
