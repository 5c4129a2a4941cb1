import { describe, expect, test } from "vitest";
import { scaleOf } from "../../../web/board/calendar.ts";
import { rightLayout } from "../../../web/board/right-column.ts";

const column = (rightPx: number, ...rows: readonly (readonly [string, string, string])[]) => ({
  widthPx: 1232,
  scale: scaleOf(0, 1, 184, 1232 - rightPx),
  rows: rows.map(([doneRoute, doneBy, worth]) => ({ doneRoute, doneBy, worth })),
});

describe("the right column", () => {
  test("stands in a line where time and worth leave air between them", () => {
    expect(rightLayout(column(244, ["Wilted chop", "Sat 19:25", "1,290/ha"]))).toBe("line");
    expect(rightLayout(column(244, ["Wilted chop", "Sat 19:25", ""], ["No window", "", ""]))).toBe("line");
  });

  test("puts the time under the route where one row of it would run into the worth", () => {
    const row = ["Direct chop", "Wed 17 10:50 am", "115/ac"] as const;
    expect(rightLayout(column(244, ["Wrapped", "Sat 7 pm", "90/ac"], row))).toBe("beside");
  });

  test("puts the worth after the time where there is no room beside", () => {
    expect(rightLayout(column(146, ["Dry hay", "Wed 17 10:50 am", "115/ac"]))).toBe("after");
  });
});
