import { clear } from "idb-keyval";
import { render } from "preact";
import { beforeEach, expect, test, vi } from "vitest";
import sample from "../../weather-samples/settled-dry.json";
import { SavedFiles } from "../../web/panel/SavedFiles.tsx";
import type { Action } from "../../web/state/action.ts";
import type { Sample } from "../../web/state/state.ts";
import { type FileSource, listFiles, loadFile, saveFile, withFile } from "../../web/weather/saved-files.ts";
import { pageHost } from "../support/page-host.ts";

const host = pageHost();
let done: Action[];

const { series } = sample as Sample;
const fileOf = (name: string): FileSource => ({ kind: "upload", name, series, missing: 0 });
const soon = (check: () => void) => vi.waitFor(check, { timeout: 5000, interval: 20 });
const draw = (source: FileSource | null) =>
  render(
    <SavedFiles
      source={source}
      zone={series.site.timeZone}
      thisYear={2027}
      dispatch={(one) => done.push(one)}
    />,
    host,
  );

beforeEach(async () => {
  await clear();
  done = [];
});

test("each file that gave a board is remembered by name, can be shown again, and be forgotten", async () => {
  draw(null);
  await saveFile(fileOf("creek.csv"));
  draw(fileOf("hill.csv"));
  const names = () => [...host.querySelectorAll("li button:first-child")].map((one) => one.textContent);
  await soon(() =>
    expect(names()).toEqual([expect.stringMatching(/^hill/), expect.stringMatching(/^creek/)]),
  );
  expect(names()[0]).toMatch(/^hill\.csv 10 days from \w+day \d+ \w{3} 2026$/);
  host.querySelectorAll<HTMLElement>("li button:first-child")[1]?.click();
  await soon(() => expect(done.at(-1)).toMatchObject({ kind: "source", source: { name: "creek.csv" } }));
  expect(done).toContainEqual({ kind: "place", field: "latitude", text: String(series.site.latitude) });
  host.querySelectorAll<HTMLElement>("li button:last-child")[1]?.click();
  await soon(() => expect(names()).toHaveLength(1));
  expect(host.querySelector("[role=status]")?.textContent).toBe("creek.csv is forgotten by this device.");
  expect(await loadFile("creek.csv")).toBeNull();
  expect((await listFiles()).map(({ name }) => name)).toEqual(["hill.csv"]);
});

test("the oldest goes past a dozen, one of the same name is replaced", () => {
  const file = (i: number) => ({ name: `${i}.csv`, fromUtc: "2026-06-20T05:00:00Z", hours: i });
  const twelve = Array.from({ length: 12 }, (_, i) => file(i));
  expect(withFile(twelve, file(12)).gone.map(({ name }) => name)).toEqual(["11.csv"]);
  expect(withFile(twelve, { ...file(3), hours: 99 }).files).toHaveLength(12);
});
