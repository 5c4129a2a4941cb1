import { clear } from "idb-keyval";
import { render } from "preact";
import { useReducer } from "preact/hooks";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import type { WindowsAnswer } from "../../model/harvest/index.ts";
import settled from "../../weather-samples/settled-dry.json";
import showers from "../../weather-samples/showers-every-other-day.json";
import { CopyLink, LinkNotice } from "../../web/link/CopyLink.tsx";
import { readLink } from "../../web/link/read-link.ts";
import { useLink } from "../../web/link/use-link.ts";
import { weatherMark } from "../../web/link/weather-mark.ts";
import { useOffline } from "../../web/offline/use-offline.ts";
import type { Action } from "../../web/state/action.ts";
import { reduce } from "../../web/state/reducer.ts";
import { firstState, type Kept, type Picture, type Sample, type State } from "../../web/state/state.ts";
import { Progress } from "../../web/states/Progress.tsx";
import type { WeatherSource } from "../../web/weather/source.ts";

const samples = [showers as Sample, settled as Sample];
const own: WeatherSource = {
  kind: "upload",
  name: "own.csv",
  series: (settled as Sample).series,
  missing: 0,
};
const ROW = "2026-06-08T14:00:00Z/swath";
const LATER = "2026-06-11T16:00:00Z";
const before = location.href;
let host: HTMLDivElement;
let state: State;
let dispatch: (action: Action) => void;
let keptMs: number | null;

/** The page without its pictures: the state, the link and what the device keeps. */
function Page({ search }: { readonly search: string }) {
  const link = readLink(search);
  const [now, send] = useReducer<State, Action, undefined>(reduce, undefined, () =>
    firstState({
      timeZone: "America/Chicago",
      locale: "en-GB",
      nowMs: Date.now(),
      online: true,
      preferences: { units: "metric", theme: "system" },
      inputs: link.inputs,
    }),
  );
  const offline = useOffline(now, send, link);
  const told = useLink(now, send, link, offline.ready);
  state = now;
  dispatch = send;
  keptMs = offline.keptMs;
  return (
    <>
      <LinkNotice told={told} />
      <CopyLink state={now} />
    </>
  );
}

/** Opens the page at an address, as a browser does. */
function open(search: string): void {
  render(null, host);
  history.replaceState(null, "", `${location.pathname}${search}`);
  render(<Page search={search} />, host);
}

let lastId = 0;

/** What the worker would tell of the weather and the fields as they are. */
function answer(odds?: WindowsAnswer["odds"]): void {
  if (state.source === null) throw new Error("no weather");
  const id = ++lastId;
  const { source, inputs } = state;
  dispatch({ kind: "asked", id, source, inputs });
  const windows = [{ startUtc: "2026-06-10T16:00:00Z" }, { startUtc: LATER }];
  const routes = [{ route: "dry-hay", windows }];
  const answered = {
    options: [{ id: ROW, routes }],
    best: { overall: null },
    odds,
  } as unknown as WindowsAnswer;
  const { request } = { request: {} } as unknown as Pick<Picture, "request">;
  dispatch({
    kind: "told",
    tell: { kind: "board", id, request, answer: answered, course: null, ribbons: {} },
  });
}

const soon = (check: () => void) => vi.waitFor(check, { timeout: 5000, interval: 20 });
const rested = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));

beforeEach(async () => {
  await clear();
  host = document.createElement("div");
  document.body.append(host);
});

afterEach(() => {
  vi.restoreAllMocks();
  render(null, host);
  host.remove();
  history.replaceState(null, "", before);
});

test("a link opens on its weather, its fields and its row, and the address keeps them", async () => {
  const search = `?weather=settled-dry&row=${ROW}&route=wrapped-bales&crop=corn&areaHa=15.8%7Eus`;
  open(search);
  dispatch({ kind: "samples", samples });
  await soon(() => expect(state.source).toMatchObject({ kind: "sample", id: "settled-dry" }));
  answer();
  await soon(() => expect(state.selection).toEqual({ optionId: ROW, route: "wrapped-bales" }));
  expect(state.inputs.crop).toBe("corn");
  expect(state.inputs.texts.areaHa).toEqual({ text: "15.8", units: "us" });
  expect(host.querySelector(".notice")?.textContent).toBe("");
  await rested(600);
  expect(location.search).toBe(search);
});

test("a link opens on its later window and asks for its comparison; a window that is not there is told", async () => {
  const row = `?weather=settled-dry&row=${ROW}&route=dry-hay`;
  open(`${row}&window=${LATER}&compare=windrow`);
  dispatch({ kind: "samples", samples });
  await soon(() => expect(state.source).not.toBeNull());
  answer();
  await soon(() => expect(state.toCompare).toBe("windrow"));
  expect(state.selection).toEqual({ optionId: ROW, route: "dry-hay", windowUtc: LATER });
  await rested(600);
  expect(location.search).toBe(`${row}&window=${LATER}&compare=windrow`);

  // The comparison stays in the address for as long as its two cuts are those of the question.
  const against = { preset: "windrow", inputs: state.inputs, optionId: ROW } as const;
  dispatch({ kind: "keep", kept: { against } as unknown as Kept });
  await rested(600);
  expect(location.search).toBe(`${row}&window=${LATER}&compare=windrow`);
  dispatch({ kind: "text", field: "areaHa", text: "9" });
  await rested(600);
  expect(location.search).toBe(`${row}&window=${LATER}&areaHa=9`);

  open(`${row}&window=2026-06-10T16:00:00Z`);
  await soon(() => expect(state.selection).toBeNull());
  dispatch({ kind: "samples", samples });
  await soon(() => expect(state.source).not.toBeNull());
  answer();
  await soon(() =>
    expect(host.querySelector(".notice")?.textContent).toContain(
      "The link's window is not on its row. The route's first window is shown.",
    ),
  );
});

test("a comparison without a row waits for the chances, which may put another cut first", async () => {
  open("?weather=settled-dry&compare=windrow");
  dispatch({ kind: "samples", samples });
  await soon(() => expect(state.source).toMatchObject({ kind: "sample", id: "settled-dry" }));
  answer();
  await rested(300);
  expect(state.toCompare).toBeNull();
  expect(location.search).toBe("?weather=settled-dry&compare=windrow");
  answer({} as NonNullable<WindowsAnswer["odds"]>);
  await soon(() => expect(state.toCompare).toBe("windrow"));
});

test("the address follows the fields once they rest, and stays at the last sound ones", async () => {
  open("");
  dispatch({ kind: "samples", samples });
  await soon(() => expect(state.source).not.toBeNull());
  answer();
  await rested(600);
  expect(location.search).toBe("");
  // Under half a second after the lever rests, whenever its answer comes.
  const fromMs = performance.now();
  dispatch({ kind: "text", field: "areaHa", text: "9" });
  await soon(() => expect(location.search).toBe("?weather=showers-every-other-day&areaHa=9"));
  expect(performance.now() - fromMs).toBeLessThan(500);
  answer();
  dispatch({ kind: "text", field: "areaHa", text: "9x" });
  await rested(600);
  expect(location.search).toBe("?weather=showers-every-other-day&areaHa=9");
});

test("what a link gets wrong is told and can be closed; the rest of it holds", async () => {
  open(`?weather=gone&row=${ROW}&crop=wheat&areaHa=9`);
  dispatch({ kind: "samples", samples });
  await soon(() => expect(host.querySelectorAll(".notice p").length).toBe(2));
  expect(host.querySelector(".notice")?.textContent).toContain('weather: "gone" is not known');
  expect(state.inputs.texts.areaHa.text).toBe("9");
  answer();
  // Its row belonged to a weather that is not there.
  await rested(50);
  expect(state.selection).toBeNull();
  host.querySelector<HTMLButtonElement>(".notice button")?.click();
  await soon(() => expect(host.querySelector(".notice p")).toBeNull());
});

test("a row that is not on the board is told", async () => {
  open("?weather=settled-dry&row=2030-01-01T00:00:00Z/swath");
  dispatch({ kind: "samples", samples });
  await soon(() => expect(state.source).toMatchObject({ id: "settled-dry" }));
  answer();
  await soon(() => expect(host.querySelector(".notice")?.textContent).toContain("row is not on this board"));
});

test("an own file does not travel: another's device says so, one's own has it", async () => {
  const search = `?weather=own-${weatherMark(own.series)}&areaHa=9`;
  open(search);
  dispatch({ kind: "samples", samples });
  await soon(() =>
    expect(host.querySelector(".notice")?.textContent).toContain("The sender's weather was an own file"),
  );
  expect(state.source).toMatchObject({ kind: "sample" });

  open("");
  dispatch({ kind: "samples", samples });
  await soon(() => expect(state.source).not.toBeNull());
  dispatch({ kind: "source", source: own });
  dispatch({ kind: "text", field: "areaHa", text: "9" });
  await soon(() => expect(state.inputs.texts.areaHa.text).toBe("9"));
  answer();
  await soon(() => expect(location.search).toBe(search));
  // Kept a second after it rested.
  await rested(1400);

  open(search);
  dispatch({ kind: "samples", samples });
  await soon(() => expect(state.source).toMatchObject({ kind: "upload", name: "own.csv" }));
  await rested(100);
  expect(host.querySelector(".notice")?.textContent).toBe("");

  // The plain address of this device opens on it too, with its fields and when it was kept.
  open("");
  await soon(() => expect(state.source).toMatchObject({ kind: "upload", name: "own.csv" }));
  expect(state.inputs.texts.areaHa.text).toBe("9");
  answer();
  await soon(() => expect(keptMs).toBeGreaterThan(Date.now() - 60_000));
});

test("the state follows the network", async () => {
  open("");
  const online = vi.spyOn(navigator, "onLine", "get").mockReturnValue(false);
  await rested(50);
  dispatchEvent(new Event("offline"));
  await soon(() => expect(state.online).toBe(false));
  online.mockReturnValue(true);
  dispatchEvent(new Event("online"));
  await soon(() => expect(state.online).toBe(true));
});

test("the link is copied whole, and said so only as long as it is what is shown", async () => {
  open("");
  dispatch({ kind: "samples", samples });
  await soon(() => expect(state.source).not.toBeNull());
  answer();
  const write = vi.spyOn(navigator.clipboard, "writeText").mockResolvedValue();
  const button = () => host.querySelector<HTMLButtonElement>(".copy-link button");
  const said = () => host.querySelector(".copy-link [role=status]")?.textContent?.trim();
  button()?.click();
  await soon(() => expect(said()).toBe("Link copied."));
  expect(write.mock.calls[0]?.[0]).toMatch(/^http.*\?weather=showers-every-other-day$/);
  dispatch({ kind: "text", field: "areaHa", text: "7" });
  await soon(() => expect(said()).toBe(""));
  write.mockRejectedValue(new DOMException("denied", "NotAllowedError"));
  button()?.click();
  await soon(() =>
    expect(host.querySelector<HTMLInputElement>(".copy-link input")?.value).toContain("areaHa=7"),
  );
});

test("progress: nothing under 300 ms, then how far it is", async () => {
  const show = (busy: boolean, done: number) =>
    render(<Progress busy={busy} done={{ done, total: 27, what: "cut times" }} />, host);
  show(true, 0);
  await rested(150);
  expect(host.querySelector("progress")).toBeNull();
  await soon(() => expect(host.querySelector("progress")).not.toBeNull());
  show(true, 12);
  await soon(() => expect(host.textContent).toBe("12 of 27 cut times done"));
  show(false, 27);
  expect(host.querySelector("progress")).toBeNull();
});
