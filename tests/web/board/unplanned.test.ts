import { expect, test } from "vitest";
import type { CutOptionAnswer } from "../../../model/harvest/answer.ts";
import { reasonWordings } from "../../../web/board/reasons.ts";
import { unplannedDone } from "../../../web/board/rows.ts";
import { unplannedOf, unplannedReasons } from "../../../web/board/unplanned.ts";

const pair = (route: string, chance: number, windows: readonly object[] = []) => ({
  route,
  windows,
  limitedBy: windows.length > 0 ? null : "rain",
  odds: { chance },
});
const optionOf = (...routes: readonly object[]) => ({ kind: "swath", routes }) as unknown as CutOptionAnswer;

test("a row that only the main forecast leaves without a window says so, and how many of its courses do not", () => {
  const option = optionOf(
    { ...pair("dry-hay", 0.3), limitedBy: "over-dry" },
    pair("wrapped-bales", 0.47),
    pair("wilted-chop", 0.1),
  );
  const wordings = reasonWordings(option);
  expect(wordings).toEqual([
    "No window in the main forecast. Wrapped: rain comes first, yet 5 in 10 of its courses have one; hay: too dry too soon, yet 3 in 10",
    "No window in the main forecast. Wrapped: rain comes first, yet 5 in 10 of its courses have one",
    "No window. Wrapped: rain comes first, yet 5 in 10 courses have one",
    // Where room is short the chance alone would read as a window.
    "No window; wrapped in 5 in 10 courses",
    "No window",
  ]);
  expect(unplannedReasons(option)).toEqual([
    "Wrapped bales: no window in the main forecast; 5 in 10 of its courses have one.",
    "Dry hay: no window in the main forecast; 3 in 10 of its courses have one.",
  ]);
});

test("up to 1 in 10, and beside a window of its own, nothing is said of it", () => {
  const option = optionOf(pair("dry-hay", 0.1), pair("wrapped-bales", 0.6, [{}]));
  expect(unplannedOf(option)).toEqual([]);
  expect(reasonWordings(optionOf(pair("dry-hay", 0.1)))[0]).toBe("No window: rain comes first");
});

test("its right column names the likeliest route and its chance, and that no hour can be told", () => {
  const row = (option: CutOptionAnswer) => unplannedDone(option);
  expect(row(optionOf(pair("dry-hay", 0.3), pair("wrapped-bales", 0.47)))).toEqual({
    doneRoute: "Wrapped",
    doneBy: "5 in 10, no hour",
    doneShort: "W 5 in 10",
    worth: "",
  });
  expect(row(optionOf(pair("dry-hay", 1))).doneBy).toBe(">9 in 10, no hour");
  expect(row(optionOf(pair("dry-hay", 0.1)))).toMatchObject({ doneRoute: "No window", doneBy: "" });
});
