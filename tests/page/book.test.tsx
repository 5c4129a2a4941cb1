import { clear, get } from "idb-keyval";
import { render } from "preact";
import { useReducer } from "preact/hooks";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { demoDocs } from "../../model/book/demo.ts";
import type { BookKind, Entry } from "../../model/book/kinds.ts";
import { Book } from "../../web/book/Book.tsx";
import { keepIssued } from "../../web/book/keep-issued.ts";
import { dropLearnedRates, keepLearnedRate, learnedOfBook } from "../../web/book/keep-learned.ts";
import { keepReading } from "../../web/book/keep-reading.ts";
import { SignIn } from "../../web/book/SignIn.tsx";
import { theOutbox } from "../../web/book/the-outbox.ts";
import type { Units } from "../../web/format/units.ts";
import { keepLearned, learnedKey } from "../../web/reading/readings.ts";
import type { Choice } from "../../web/state/choice.ts";
import { DEMO_INPUTS } from "../../web/state/inputs.ts";
import { reduce } from "../../web/state/reducer.ts";
import { firstState, type Picture } from "../../web/state/state.ts";
import { graveFaultsIn } from "../support/axe.ts";
import "../../web/style.css";

const NOW_MS = Date.parse("2026-07-01T12:00:00Z");
const head = {
  revision: 1,
  createdUtc: "2026-07-01T12:00:00Z",
  changedUtc: "2026-07-01T12:00:00Z",
  deleted: false,
};
const DEMO = demoDocs(NOW_MS);

let host: HTMLDivElement;
let asked: string[];
/** What the server answers beside the lists. */
let answer: (method: string, path: string, body: string) => Response | null;

const json = (body: unknown, status = 200) => Response.json(body, { status });
const entryOf = (kind: BookKind, id: string): Entry =>
  ({ ...head, id, doc: (DEMO[kind] as Record<string, unknown>)[id] }) as unknown as Entry;
const entriesOf = (kind: BookKind) => Object.keys(DEMO[kind] ?? {}).map((id) => entryOf(kind, id));

const session = { keysNeeded: false, holder: null as object | null, calendarToken: null as string | null };

beforeEach(async () => {
  await theOutbox().decide(() => []);
  await clear();
  asked = [];
  answer = () => null;
  host = document.createElement("div");
  host.style.width = "390px";
  document.body.append(host);
  vi.stubGlobal("fetch", async (path: string, { method = "GET", body = "" }: RequestInit = {}) => {
    if (method !== "GET") asked.push(`${method} ${path}`);
    const own = answer(method, path, String(body));
    if (own !== null) return own;
    if (path === "api/session") return json(session);
    if (path.startsWith("api/book/due")) return json({ error: "x", message: "none here", issues: [] }, 500);
    const kind = /^api\/book\/([a-z]+)\?/.exec(path)?.[1] as BookKind | undefined;
    return json({ entries: kind ? entriesOf(kind) : [], next: null });
  });
});

afterEach(async () => {
  render(null, host);
  host.remove();
  await theOutbox().decide(() => []);
  vi.unstubAllGlobals();
});

const soon = (check: () => void) => vi.waitFor(check, { timeout: 5000, interval: 20 });

function Page({ units, locale }: { readonly units: Units; readonly locale: string }) {
  const [state, dispatch] = useReducer(reduce, undefined, () =>
    firstState({
      timeZone: "",
      locale,
      nowMs: NOW_MS,
      online: true,
      preferences: { units, theme: "system" },
      inputs: DEMO_INPUTS,
    }),
  );
  const manner = { units, locale, hour12: false, zone: "America/Chicago" };
  return (
    <main>
      <h1 data-crop={state.inputs.crop} data-yield={state.inputs.texts.yieldTHa.text}>
        {state.inputs.fieldName}, {state.upload.place.latitude}
      </h1>
      <h2>The book</h2>
      <Book
        state={state}
        picture={null}
        choice={null}
        manner={manner}
        dispatch={dispatch}
        tries={() => Promise.resolve([])}
        ask={(place) => asked.push(`forecast ${place.latitude}`)}
      />
    </main>
  );
}

const draw = (units: Units = "metric", locale = "en") => render(<Page units={units} locale={locale} />, host);
const named = (name: RegExp) =>
  [...host.querySelectorAll<HTMLButtonElement>("button")].find(({ textContent }) =>
    name.test(textContent ?? ""),
  );
const press = async (name: RegExp) => {
  await soon(() => expect(named(name), String(name)).toBeDefined());
  named(name)?.click();
};
const labelled = (text: string) => {
  const label = [...host.querySelectorAll("label")].find(({ textContent }) => textContent?.startsWith(text));
  return document.getElementById(label?.htmlFor ?? "") as HTMLInputElement;
};
const type = (label: string, text: string) => {
  const input = labelled(label);
  input.value = text;
  input.dispatchEvent(new InputEvent("input", { bubbles: true }));
};

test("each part of the book is listed and opens as a form, without a grave fault, at a phone's width", async () => {
  draw();
  await soon(() => expect(host.querySelectorAll(".book-entries li")).toHaveLength(2));
  expect(host.querySelector(".book-says")?.textContent).toMatch(/^Overdue: .* \d+ things .*, 1 overdue\.$/);
  expect(await graveFaultsIn(host)).toEqual([]);
  for (const part of [
    /^Cuts/,
    /^Lots/,
    /^Readings/,
    /^Prices/,
    /^Herds/,
    /^Machines/,
    /^People/,
    /^Places/,
  ]) {
    await press(part);
    await soon(() => expect(host.querySelectorAll(".book-entries li").length).toBeGreaterThan(0));
    await press(/^Edit/);
    await soon(() => expect(host.querySelector(".book-form")).not.toBeNull());
    if (part.test("Lots")) expect(await graveFaultsIn(host)).toEqual([]);
    const wide = [...host.querySelectorAll(".book *")].filter(
      (one) => one.getBoundingClientRect().right > 391,
    );
    expect(wide.map(({ className }) => className)).toEqual([]);
  }
});

test("a field of the book goes into the levers of the page, and its place with it", async () => {
  draw();
  await press(/^With its forecast Hill field/);
  const page = host.querySelector("h1");
  await soon(() => expect(page?.textContent).toBe("Hill field, 44.3"));
  expect(page?.dataset).toMatchObject({ crop: "drought-corn", yield: "5" });
  expect(asked).toEqual(["forecast 44.3"]);
});

test("what is wrong stands beside its field in the page's units and numbers; what is right is sent and listed", async () => {
  answer = (method, _path, body) =>
    method === "POST" ? json({ ...head, ...(JSON.parse(body) as object) }, 201) : null;
  draw("us", "de");
  await press(/^Add a field/);
  await soon(() => expect(labelled("Area")).toBeTruthy());
  type("Area", "0");
  await press(/^Keep this field/);
  await soon(() =>
    expect([...host.querySelectorAll(".field-error")].map(({ textContent }) => textContent)).toEqual([
      "Empty; it is needed.",
      "Got 0, must be above 0 and at most 12.300 ac.",
    ]),
  );
  type("Name", "New field");
  type("Area", "12,5");
  await press(/^Keep this field/);
  await soon(() => expect(host.querySelectorAll(".book-entries li")).toHaveLength(3));
  await soon(() => expect(asked).toEqual(["POST api/book/fields"]));
  expect(host.textContent).toContain("12,5 ac");
  await soon(() => expect(host.querySelector(".book-waiting")).toBeNull());
});

test("without a signal changes wait, on the device; a conflict is told with both versions, and the choice is sent", async () => {
  let up = false;
  const theirs = {
    ...entryOf("fields", "demo-hill"),
    revision: 4,
    doc: { ...DEMO.fields?.["demo-hill"], areaHa: 20 },
  };
  answer = (method, _path, body) => {
    if (method === "GET") return null;
    if (!up) throw new TypeError("no network");
    const { revision, doc } = JSON.parse(body) as { revision: number; doc: object };
    return revision === 4
      ? json({ ...theirs, revision: 5, doc })
      : json({ error: "conflict", message: "is at revision 4", issues: [], entry: theirs }, 409);
  };
  draw();
  await press(/^Edit Hill field/);
  await soon(() => expect(labelled("Area")).toBeTruthy());
  type("Area", "9");
  await press(/^Keep this field/);
  await soon(() => expect(host.querySelector(".book-waiting")?.textContent).toBe("Waits for signal (1)."));
  expect(await get("swathclock.book-queue")).toMatchObject([
    { id: "demo-hill", revision: 1, doc: { areaHa: 9 } },
  ]);
  expect(host.querySelector(".book-waits")).not.toBeNull();
  up = true;
  dispatchEvent(new Event("online"));
  await soon(() => expect(host.querySelector(".book-versions tbody")?.textContent).toBe("Area9 ha20 ha"));
  expect(await graveFaultsIn(host)).toEqual([]);
  await press(/^Keep yours/);
  await soon(() => expect(host.querySelector(".book-held")).toBeNull());
  await soon(() => expect(host.querySelector(".book-waiting")).toBeNull());
  expect(host.textContent).toContain("9 ha");
  expect(await get("swathclock.book-queue")).toEqual([]);
});

test("a change kept without a signal that the book then refuses is shown with its reason, mended, and sent", async () => {
  let up = false;
  const tooLate = "doc.atUtc: got 2026-07-03T12:00:00Z, must be at most 24 h after now, 2026-07-01T12:00:00Z";
  answer = (method, _path, body) => {
    if (method === "GET") return null;
    if (!up) throw new TypeError("no network");
    const { id, doc } = JSON.parse(body) as { id: string; doc: { atUtc: string } };
    if (doc.atUtc < "2026-07-02") return json({ ...head, id, doc }, 201);
    const issues = [{ path: "doc.atUtc", code: "in-the-future", message: tooLate }];
    return json({ error: "invalid-request", message: tooLate, issues }, 400);
  };
  draw();
  // A device whose clock is days ahead.
  const reading = { atUtc: "2026-07-03T12:00:00Z", method: "microwave", moistureWb: 0.31 } as const;
  expect(await keepReading({ reading, fieldName: "Creek field" })).toBe("kept");
  await soon(() => expect(host.querySelector(".book-waiting")?.textContent).toBe("Waits for signal (1)."));
  up = true;
  dispatchEvent(new Event("online"));
  await soon(() =>
    expect(host.querySelector(".book-held li")?.textContent).toMatch(
      /^Taken, .*: got .*3.*07:00, must be at most 24 h after now, /,
    ),
  );
  expect(await get("swathclock.book-queue")).toMatchObject([{ kind: "readings", held: { kind: "refused" } }]);
  expect(await graveFaultsIn(host)).toEqual([]);
  await press(/^Mend it/);
  await soon(() => expect(labelled("Taken")).toBeTruthy());
  expect(host.querySelector(".field-error")?.textContent).toMatch(/^Got .*, must be at most 24 h after now/);
  await press(/^Keep this reading/);
  await soon(() =>
    expect(host.querySelector(".book-form .book-wrong")?.textContent).toContain("One field needs"),
  );
  type("Taken", "2026-07-01T06:00");
  await press(/^Keep this reading/);
  await soon(() => expect(host.querySelector(".book-held")).toBeNull());
  await soon(async () => expect(await get("swathclock.book-queue")).toEqual([]));
});

test("a cut of another crop than its field's is asked about, and kept", async () => {
  answer = (method, _path, body) =>
    method === "POST" ? json({ ...head, ...(JSON.parse(body) as object) }, 201) : null;
  draw();
  await press(/^Cuts/);
  await press(/^Edit/);
  await soon(() => expect(labelled("Crop")).toBeTruthy());
  const crop = labelled("Crop");
  crop.value = "corn";
  crop.dispatchEvent(new Event("change", { bubbles: true }));
  await soon(() => expect(host.querySelector(".book-form")?.textContent).toContain("is this corn?"));
});

test("a reading from elsewhere on the page goes to the field of that name, and nowhere where there is none", async () => {
  answer = (method, _path, body) =>
    method === "POST" ? json({ ...head, ...(JSON.parse(body) as object) }, 201) : null;
  const reading = { atUtc: "2026-07-01T11:00:00Z", method: "microwave", moistureWb: 0.31 } as const;
  expect(await keepReading({ reading, fieldName: "creek field " })).toBe("kept");
  expect(await keepReading({ reading, fieldName: "Nowhere" })).toBe("no-such-field");
  await soon(() => expect(asked).toEqual(["POST api/book/readings"]));
});

test("what readings taught goes into the book, and from there to another device; forgotten, it leaves and stays away", async () => {
  const rates: Entry[] = [];
  answer = (method, path, body) => {
    if (method === "GET")
      return path.startsWith("api/book/learned-rates") ? json({ entries: rates, next: null }) : null;
    if (method === "DELETE") return json({ ...rates.pop(), deleted: true, revision: 2 });
    const made = { ...head, ...(JSON.parse(body) as object) } as unknown as Entry;
    rates.push(made);
    return json(made, 201);
  };
  const on = { fieldName: "Creek field", crop: "alfalfa" } as const;
  const key = learnedKey(on.fieldName, on.crop);
  const taught = { rateLnMean: 0.2, rateLnSd: 0.1, atUtc: "2026-07-01T11:00:00Z" };
  const reading = {
    optionId: "o",
    weather: "place 44.3 -98.2",
    field: key,
    request: { atUtc: taught.atUtc, method: "microwave", moistureWb: 0.4 },
    place: "",
    keptMs: NOW_MS,
  } as const;
  await keepLearnedRate({ ...on, fieldName: "Nowhere" }, taught, [reading]);
  await keepLearnedRate(on, taught, [reading]);
  await keepLearnedRate(on, { ...taught, rateLnMean: 0.21 }, [reading]);
  await soon(() => expect(asked).toEqual(["POST api/book/learned-rates"]));
  expect(rates[0]?.doc).toEqual({
    fieldId: "demo-creek",
    crop: "alfalfa",
    atUtc: taught.atUtc,
    lnMean: 0.2,
    lnSd: 0.1,
  });
  // The device that sent it takes nothing back.
  expect(await learnedOfBook([])).toBeNull();
  // Another one does, but not of a field whose readings lie on it.
  localStorage.clear();
  expect(await learnedOfBook([reading])).toBeNull();
  expect(await learnedOfBook([])).toEqual({ [key]: taught });
  keepLearned(key, null);
  expect(await learnedOfBook([])).toBeNull();
  localStorage.clear();
  await keepLearnedRate(on, taught, [reading]);
  await dropLearnedRates(key);
  await soon(() => expect(asked.at(-1)).toMatch(/^DELETE api\/book\/learned-rates\/.*revision=1$/));
});

test("a station's file and the forecast made of it are kept once, listed, and removed by who may edit", async () => {
  const made: Entry[] = [];
  answer = (method, path, body) => {
    const kind = /^api\/book\/([a-z-]+)/.exec(path)?.[1];
    if (method === "POST") {
      const entry = { ...head, ...(JSON.parse(body) as { id: string; doc: object }) } as unknown as Entry;
      made.push(entry);
      return json(entry, 201);
    }
    if (method === "DELETE") return json({ ...made[0], deleted: true, revision: 2 });
    const isUpload = ({ doc }: Entry) => "series" in doc;
    if (kind === "uploads") return json({ entries: made.filter(isUpload), next: null });
    if (kind === "forecasts") return json({ entries: made.filter((one) => !isUpload(one)), next: null });
    return null;
  };
  const startUtc = ["2026-06-30T12:00:00Z", "2026-06-30T13:00:00Z"];
  const series = { site: {}, hours: { startUtc, airTempC: [20, 21] } };
  const picture = {
    source: { kind: "upload", name: "station.csv", series },
    inputs: { fieldName: "Creek field" },
    request: { swath: { crop: "alfalfa" }, weather: series },
    course: null,
  } as unknown as Picture;
  const choice = { option: { id: "o", cutUtc: null }, route: null } as unknown as Choice;
  await keepIssued(picture, choice, NOW_MS);
  await keepIssued(picture, choice, NOW_MS + 1);
  await soon(() => expect(asked).toEqual(["POST api/book/uploads", "POST api/book/forecasts"]));
  draw();
  const fold = [...host.querySelectorAll("summary")].find(({ textContent }) =>
    textContent?.startsWith("Forecasts,"),
  );
  fold?.click();
  const listed = () => [...host.querySelectorAll(".book-kept strong")].map(({ textContent }) => textContent);
  await soon(() => expect(listed()).toEqual(["Creek field, Wednesday 1 Jul 07:00", "station.csv"]));
  expect(await graveFaultsIn(host)).toEqual([]);
  await press(/^Remove station.csv/);
  await press(/^Yes, remove station.csv/);
  await soon(() => expect(asked.at(-1)).toMatch(/^DELETE api\/book\/uploads/));
});

test("the invented farm's book can be looked at, and nothing of it changed", async () => {
  draw();
  await soon(() => expect(host.querySelectorAll(".book-entries li")).toHaveLength(2));
  const before = host.querySelectorAll("button").length;
  asked.length = 0;
  [...host.querySelectorAll("summary")].find(({ textContent }) => textContent?.startsWith("A look"))?.click();
  await soon(() => expect(host.textContent).toContain("Invented: no farm, no people."));
  await soon(() => expect(host.querySelectorAll(".book-kept li").length).toBeGreaterThan(0));
  expect(host.querySelectorAll("button")).toHaveLength(before);
  expect(await graveFaultsIn(host)).toEqual([]);
});

test("a key that may look turns editing off and says so; a wrong key is told beside its field", async () => {
  Object.assign(session, { keysNeeded: true, holder: { name: "barn", role: "view" } });
  draw();
  await soon(() =>
    expect(host.textContent).toContain("Signed in as barn: may look, not change. Editing is off."),
  );
  await soon(() => expect(host.querySelectorAll(".book-entries li")).toHaveLength(2));
  expect(named(/^(Add|Edit|Remove|Keep)/)).toBeUndefined();
  Object.assign(session, { keysNeeded: false, holder: null });
  answer = (_method, path) =>
    path === "api/session" ? json({ error: "unauthorized", message: "wrong", issues: [] }, 401) : null;
  render(<SignIn onSignedIn={() => asked.push("in")} />, host);
  type("Key", "not-the-right-key");
  await press(/^Sign in/);
  await soon(() =>
    expect(host.querySelector(".field-error")?.textContent).toMatch(/^That key is not one of/),
  );
  expect(asked).not.toContain("in");
  expect(await graveFaultsIn(host)).toEqual([]);
});
