import axe from "axe-core";
import { render } from "preact";
import { useState } from "preact/hooks";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { page, userEvent } from "vitest/browser";
import type { CrewJobAnswer, CrewPlanAnswer, CrewPlanRequest } from "../../model/crew/index.ts";
import sample from "../../weather-samples/settled-dry.json";
import { type CrewDraft, draftOf } from "../../web/crew/crew-draft.ts";
import { DaySheets } from "../../web/crew/DaySheets.tsx";
import { demoCrew } from "../../web/crew/demo-crew.ts";
import { EditCrew } from "../../web/crew/EditCrew.tsx";
import { FeedCautions } from "../../web/crew/FeedCautions.tsx";
import type { CautionedField, CautionedPlan } from "../../web/crew/feed-orders.ts";
import { JobPanel } from "../../web/crew/JobPanel.tsx";
import { PlanTable } from "../../web/crew/PlanTable.tsx";
import { PlanTold } from "../../web/crew/PlanTold.tsx";
import { Search } from "../../web/crew/Search.tsx";
import type { Crew } from "../../web/crew/use-crew.ts";
import type { Manner } from "../../web/format/manner.ts";
import type { Sample } from "../../web/state/state.ts";
import "../../web/style.css";
import "../../web/crew/crew.css";

const { series } = sample as Sample;
const manner: Manner = { units: "us", hour12: true, locale: "en-US", zone: series.site.timeZone };
const NOW_UTC = series.hours.startUtc[0] ?? "";
let host: HTMLElement;
let draft: CrewDraft;

beforeEach(async () => {
  await page.viewport(390, 900);
  host = document.createElement("main");
  document.body.append(host);
});

afterEach(() => {
  render(null, host);
  host.remove();
  delete document.documentElement.dataset.theme;
});

const NO_ACTS = {
  onChoose: () => {},
  onMove: () => {},
  onHand: () => {},
  onHold: () => {},
  onBack: () => {},
  onReplan: () => {},
};

/** Two fields of the demonstration's crew, being changed. */
function Editing({ onPlan = () => {} }: { readonly onPlan?: (draft: CrewDraft) => void }) {
  const crew = demoCrew(series);
  const [shown, setShown] = useState<CrewDraft>(() => ({
    ...draftOf(crew, "plan"),
    fields: crew.fields.slice(0, 2),
  }));
  draft = shown;
  return (
    <div class="crew">
      <h1>Crew</h1>
      <h2>Change</h2>
      <EditCrew
        draft={shown}
        series={series}
        manner={manner}
        nowUtc={NOW_UTC}
        busy={false}
        onDraft={setShown}
        onPlan={onPlan}
        onDemo={() => {}}
      />
    </div>
  );
}

/** Opens what is folded to one line. */
async function unfold(...names: readonly string[]) {
  for (const name of names) {
    const summaries = [...host.querySelectorAll("summary")];
    await userEvent.click(summaries.find(({ textContent }) => textContent?.startsWith(name)) as Element);
  }
}

async function faults(): Promise<string[]> {
  const { violations } = await axe.run(host, { resultTypes: ["violations"] });
  return violations.map(({ id: rule, nodes }) => `${rule}: ${nodes.map(({ html }) => html).join(" ")}`);
}

test.each(["day", "night"])(
  "the crew can be changed by %s without a fault, and nothing is wider than a phone",
  async (theme) => {
    document.documentElement.dataset.theme = theme;
    render(<Editing />, host);
    await unfold("Creek field", "Mower", "Driver one", "Home farm");
    await userEvent.click(page.getByRole("button", { name: "Broken or away" }).first());
    expect(draft.machines[0]?.offUtc).toHaveLength(1);
    await userEvent.click(page.getByRole("checkbox", { name: "Mow" }).first());
    await expect.element(page.getByText(/must begin with mow/)).toBeVisible();
    expect(await faults()).toEqual([]);
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(390);
  },
);

test("due times, hours and drives are the farm's and in the reader's units; what is wrong keeps the plan from being asked", async () => {
  const onPlan = vi.fn();
  render(<Editing onPlan={onPlan} />, host);
  const plan = page.getByRole("button", { name: "Plan with these" });
  await unfold("Creek field", "Driver one", "Home farm", "Drives between the places");
  await userEvent.fill(page.getByLabelText("Due, if promised").first(), "2026-06-24T18:00");
  // 18:00 of the farm, five hours behind UTC in summer.
  expect(draft.fields[0]?.dueUtc).toBe("2026-06-24T23:00:00Z");
  await userEvent.fill(page.getByLabelText("Area, ac").first(), "10");
  expect(draft.fields[0]?.areaHa).toBeCloseTo(4.047, 3);
  await userEvent.fill(page.getByLabelText(/^Home farm to Hill farm, minutes/), "");
  expect(draft.travelMin).toEqual({});
  const from = page.getByLabelText("From", { exact: true }).first();
  await userEvent.fill(from, "sunrise");
  await expect.element(plan).toBeDisabled();
  await expect.element(page.getByText("Something is wrong: look inside.")).toBeVisible();
  await userEvent.fill(from, draft.people[0]?.to ?? "");
  await expect.element(page.getByText(/must be another time than from/)).toBeVisible();
  await expect.element(plan).toBeDisabled();
  await userEvent.fill(from, "6:30 am");
  await userEvent.click(plan);
  expect(onPlan).toHaveBeenCalledOnce();
  await userEvent.click(page.getByRole("button", { name: "Add a place" }));
  expect(Object.keys(draft.siteNames)).toHaveLength(3);
  // What is new stands open, the rest in a line each.
  await expect.element(page.getByLabelText("Name", { exact: true }).last()).toHaveValue("New place");
  await expect.element(page.getByText("Fields lie there.").first()).toBeVisible();
});

test("forecasts of the places come with their members, and with what was typed meanwhile", async () => {
  const answers: (() => void)[] = [];
  vi.stubGlobal("fetch", async (address: string) => {
    await new Promise<void>((resolve) => answers.push(resolve));
    const members = address.includes("ensemble=true") ? [{ rainMm: series.hours.rainMm }] : undefined;
    return Response.json({ ...series, members });
  });
  render(<Editing />, host);
  await userEvent.click(page.getByRole("button", { name: "Fetch the forecast of each place" }));
  await expect.element(page.getByText(/^Fetching the forecast of each place: 0 of 2 places/)).toBeVisible();
  await unfold("Creek field");
  await userEvent.fill(page.getByLabelText("Area, ac").first(), "10");
  for (const answer of answers) answer();
  await expect
    .element(page.getByText(/^Each place stands in its own forecast.* with 1 member\.$/))
    .toBeVisible();
  vi.unstubAllGlobals();
  expect(draft.fields[0]?.areaHa).toBeCloseTo(4.047, 3);
  expect(Object.values(draft.weather?.series ?? {}).map(({ members }) => members?.length)).toEqual([1, 1]);
  expect(host.textContent).not.toContain("Fetching");
});

test("a day sheet prints the moisture to bale at, and to stop outside of it", () => {
  const line = {
    ...{ key: "a/bale", from: "noon", to: "2 pm", work: "Bale", field: "A", area: "", customer: null },
    ...{ place: "Home", drive: null, person: "One", cautions: [] },
  };
  const sheet = (moisture: string | null) => {
    const days = [{ key: "1", day: "Monday 1 Jun", people: "One", lines: [{ ...line, moisture }] }];
    const sheets = [{ machine: "Baler", days, places: [], feed: ["Before baling hay: A. Core and test."] }];
    render(<DaySheets sheets={sheets} head={["Sheets", "From", "Version"]} broken={false} />, host);
    return [
      host.querySelector("td:nth-of-type(5)")?.textContent,
      host.querySelector("section > p:last-child")?.textContent,
    ];
  };
  sheet("8–16 %");
  expect(host.textContent).toContain("Before baling hay: A. Core and test.");
  expect(sheet("8–16 %")).toEqual([
    "bale at 8–16 %",
    expect.stringContaining("Moisture outside what is printed here: stop and call."),
  ]);
  expect(sheet(null)).toEqual(["", expect.stringContaining("In doubt: stop and call.")]);
});

const CORN = [{ id: "a", swath: { crop: "corn" }, route: "wilted-chop" }] as unknown as CautionedField[];

test("what is to be known of the crops stands open under the chart, with its fields, and beside the chosen work", () => {
  const said = (fieldId: string, code: string, text = "") => ({ fieldId, code, text, op: "mow", path: "" });
  const plan = {
    names: { fields: { a: "A", b: "B" }, machines: {}, people: {} },
    cautions: [
      ...["a", "b"].flatMap((id) => [said(id, "before-cutting"), said(id, "feed")]),
      said("b", "hazard", "B: Two dull days raise nitrate in stems."),
    ],
  } as unknown as CautionedPlan;
  const fields = [...CORN, { ...CORN[0], id: "b", route: "dry-hay" } as CautionedField];
  const shown = (op?: "mow" | "chop", of = fields) => {
    render(<FeedCautions plan={plan} fields={of} {...(op ? { op } : {})} manner={manner} />, host);
    return [...host.querySelectorAll("h2")].map(({ textContent }) => textContent);
  };
  expect(shown()).toEqual(["Before cutting: A and B", "Before chopping: A", "Before baling hay: B"]);
  expect(host.textContent).toMatch(/B: Two dull days raise nitrate.*Nitrate sampled\?.*Silo gas: stay out/);
  expect(host.textContent).toContain("for a laboratory, your veterinarian, the label and your extension");
  expect(host.textContent).not.toMatch(/\bsafe/i);
  expect(shown("mow", CORN)).toEqual(["Before cutting: A"]);
  expect(shown("chop", CORN)).toEqual(["Before chopping: A"]);
  expect(host.textContent).not.toContain("dull days");
});

test("a held work says so and can be let go; what is moved and not held is told beside planning again", async () => {
  const at = { startUtc: "2026-06-02T14:00:00Z", endUtc: "2026-06-02T16:00:00Z" };
  const job: CrewJobAnswer = { fieldId: "a", op: "mow", machineId: "m", personId: "p", ...at };
  const plan = {
    names: { fields: { a: "A" }, machines: { m: "Mower" }, people: { p: "One" } },
    ...{ slotMin: 60, nowUtc: "2026-06-01T14:00:00Z" },
    cautions: [{ fieldId: "a", op: "mow", code: "before-cutting", path: "", text: "A: to be settled." }],
  } as unknown as CrewPlanAnswer;
  const onHold = vi.fn();
  const panel = (held: readonly string[], loose: number) => {
    const flags = {
      checked: false,
      moved: loose > 0,
      busy: false,
      faults: [],
      jobs: [job],
      manner,
      fields: CORN,
    };
    const acts = { ...NO_ACTS, onHold };
    render(
      <JobPanel job={job} plan={plan} crew={null} held={new Set(held)} loose={loose} {...flags} {...acts} />,
      host,
    );
    return host.textContent;
  };
  expect(panel(["a/mow"], 0)).toMatch(/One, held.*Let it go.*Plan again around what is held/);
  await userEvent.click(page.getByRole("button", { name: "Let it go" }));
  expect(onHold).toHaveBeenCalledWith(job);
  expect(panel(["b/mow"], 1)).toMatch(
    /Hold it here.*around what is held1 changed work is not held: it would be/,
  );
  expect(panel([], 2)).toMatch(/Plan again2 changed works are not held: they would be planned anew\./);
});

test("a work is given to another machine of its kind or another person, with a thumb or by keys", async () => {
  const at = { startUtc: "2026-06-02T14:00:00Z", endUtc: "2026-06-02T16:00:00Z" };
  const job: CrewJobAnswer = { fieldId: "a", op: "mow", machineId: "m1", personId: "p1", ...at };
  const machines: CrewPlanRequest["machines"] = [
    { id: "m1", kind: "mower" },
    { id: "m2", kind: "mower" },
    { id: "r", kind: "rake" },
  ];
  const day = { from: "07:00", to: "20:00" };
  const crew = { machines, people: ["p1", "p2"].map((id) => ({ id, ...day })) };
  const plan = {
    names: {
      fields: { a: "A" },
      machines: { m1: "Mower one", m2: "Mower two", r: "Rake" },
      people: { p1: "One", p2: "Two" },
    },
    ...{ slotMin: 60, nowUtc: "2026-06-01T14:00:00Z", cautions: [] },
  } as unknown as CrewPlanAnswer;
  const onHand = vi.fn();
  const flags = {
    checked: false,
    moved: false,
    busy: false,
    faults: [],
    jobs: [job],
    loose: 0,
    manner,
    fields: [],
  };
  const panel = (of: Pick<CrewPlanAnswer, "nowUtc"> | null, who: typeof crew) =>
    render(
      <div class="crew">
        <h1>Crew</h1>
        <JobPanel
          {...{ ...flags, ...NO_ACTS, onHand, job, crew: who, held: new Set<string>() }}
          plan={{ ...plan, ...of }}
        />
      </div>,
      host,
    );
  panel(null, crew);
  const machine = page.getByLabelText("Machine");
  const options = [...(machine.element() as HTMLSelectElement).options].map(({ text }) => text);
  expect(options).toEqual(["Mower one", "Mower two"]);
  await userEvent.selectOptions(machine, "Mower two");
  expect(onHand).toHaveBeenLastCalledWith(job, { machineId: "m2" });
  await userEvent.selectOptions(page.getByLabelText("Who"), "Two");
  expect(onHand).toHaveBeenLastCalledWith(job, { personId: "p2" });
  for (const select of host.querySelectorAll("select"))
    expect(select.getBoundingClientRect().height).toBeGreaterThanOrEqual(44);
  expect(await faults()).toEqual([]);
  // Where nobody else could do it there is nothing to choose, and what has begun stays as it is.
  panel(null, { machines: [], people: [] });
  expect(host.querySelectorAll("select")).toHaveLength(1);
  panel({ nowUtc: "2026-06-02T15:00:00Z" }, crew);
  expect(host.querySelectorAll("select")).toHaveLength(1);
});

test.each(["day", "night"])(
  "the plan's table by %s is no wider than a phone, and still a table",
  async (theme) => {
    document.documentElement.dataset.theme = theme;
    const at = { startUtc: "2026-06-02T14:00:00Z", endUtc: "2026-06-02T16:00:00Z" };
    const window = { readyUtc: "2026-06-02T13:00:00Z", untilUtc: "2026-06-03T17:00:00Z", openUtc: [] };
    const long = "The long meadow behind the second bridge";
    const plan = {
      jobs: [{ fieldId: "a", op: "bale", machineId: "m", personId: "p", ...at }],
      windows: [{ fieldId: "a", op: "bale", ...window }],
      replay: [{ fieldId: "a", chanceDry: 0.6, atRisk: true }],
      cautions: [],
      names: { fields: { a: long }, machines: { m: "The large square baler" }, people: { p: "One" } },
    } as unknown as CrewPlanAnswer;
    render(
      <div class="crew">
        <h1>Crew</h1>
        <PlanTable plan={plan} faults={[]} manner={manner} />
      </div>,
      host,
    );
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(390);
    const section = host.querySelector(".crew-table") as HTMLElement;
    expect(section.scrollWidth).toBeLessThanOrEqual(section.clientWidth);
    await expect.element(page.getByRole("rowheader", { name: long })).toBeVisible();
    await expect.element(page.getByText("at risk")).toBeVisible();
    expect(getComputedStyle(host.querySelector(".of-spare") as Element, "::before").content).toContain(
      "Spare",
    );
    expect(await faults()).toEqual([]);
    await page.viewport(1280, 900);
    expect(host.querySelector("thead")?.getBoundingClientRect().height).toBeGreaterThan(10);
    expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(1280);
  },
);

test("a search tells its windows, its time and its gap", async () => {
  const idle: Crew = {
    answer: null,
    request: null,
    busy: null,
    progress: null,
    windows: null,
    refining: false,
    issues: [],
    checked: null,
    cautions: [],
    plan: () => {},
    prove: () => {},
    cancel: () => {},
    check: () => {},
  };
  const shown = (crew: Partial<Crew>) => {
    render(
      <Search crew={{ ...idle, ...crew }} manner={manner} timeLimitS={8} onTimeLimit={() => {}} />,
      host,
    );
    return host.textContent;
  };
  expect(shown({ busy: "plan", windows: { done: 2, of: 6 } })).toContain("windows of 2 of 6 fields");
  expect(host.querySelector("progress")?.value).toBe(2);
  const progress = { stage: "better", elapsedS: 1, jobs: [], value: 98, bound: 100, gap: 0.02 } as const;
  expect(shown({ busy: "prove", progress })).toMatch(/Searching, 0 of 8 s, at most 2 % short of the best/);
  expect(shown({ busy: null })).toBe("");
});

test("a doubt about the weather stands in sight under the plan, held work beside itself alone", () => {
  const cautions = [{ fieldId: "a", op: "mow", code: "weather", path: "fixed[0]", text: "A: held in rain." }];
  const plan = {
    jobs: [],
    left: [],
    replay: [],
    changes: [],
    help: null,
    compared: null,
    assumptions: ["Nobody works in the dark."],
    cautions,
    warnings: ["Home: The first 3 hours lack a value that is needed.", "A: held in rain."],
    names: { fields: { a: "A" }, machines: {}, people: {} },
  } as unknown as CrewPlanAnswer;
  render(
    <PlanTold plan={plan} faults={[]} texts={[]} goneFields={{}} manner={manner} onGiven={() => {}} />,
    host,
  );
  expect(host.querySelector(".crew-warned")?.textContent).toBe(
    "Mind the weather:Home: The first 3 hours lack a value that is needed.",
  );
  expect(host.textContent).not.toContain("held in rain");
});
