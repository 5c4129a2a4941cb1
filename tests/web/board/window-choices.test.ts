import { expect, test } from "vitest";
import { findWindows } from "../../../model/harvest/index.ts";
import sample from "../../../weather-samples/showers-every-other-day.json";
import { type BoardOptions, toBoard } from "../../../web/board/to-board.ts";
import { LEAST_TOUCH_PX } from "../../../web/board/vessels.ts";
import { DEMO_INPUTS } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import type { Sample } from "../../../web/state/state.ts";
import { metric24 } from "../../support/manners.ts";

/** Ten days on a phone: windows stand closer than a thumb is wide. */

const { series } = sample as Sample;
const { question } = readInputs(DEMO_INPUTS);
const outcome = question && findWindows({ ...question, weather: series });
if (!outcome?.ok) throw new Error("no answer");
const answer = outcome.value;
const manner = metric24(series.site.timeZone);
const board = (widthPx: number, opts: BoardOptions = {}) =>
  toBoard(answer, series, {}, manner, widthPx, opts);
const chosen = (optionId: string) => ({ selected: { optionId, route: null } });

test.each([358, 288])("at %i px every window of the chosen row can be touched 44 px wide and high", (px) => {
  const crowded = answer.options.filter(({ id }) => {
    const picture = board(px, chosen(id));
    const at = picture.rows.findIndex((row) => row.chosen);
    const [row, next] = [picture.rows[at], picture.rows[at + 1]];
    if (!row) throw new Error("no chosen row");
    const isWide = row.vessels.every(({ touchX0, touchX1 }) => touchX1 - touchX0 >= LEAST_TOUCH_PX - 0.01);
    expect(picture.choices.map(({ vessel }) => vessel)).toEqual(isWide ? [] : row.vessels);
    picture.choices.forEach(({ x0, x1, y0, y1 }, i) => {
      expect(Math.min(x1 - x0, y1 - y0)).toBeGreaterThanOrEqual(LEAST_TOUCH_PX);
      expect(x0 >= 0 && x1 <= px && y0 >= row.y1 && y1 <= (next?.y0 ?? picture.heightPx)).toBe(true);
      const before = picture.choices[i - 1];
      if (before) expect(x0 - before.x1 >= 7.99 || y0 - before.y1 >= 7.99).toBe(true);
    });
    return picture.choices.length > 0;
  });
  expect(crowded.length).toBeGreaterThan(2);
});

test("where there is room for a pointer, and on paper, the chosen row's windows stand once", () => {
  const selected = chosen(answer.best.overall?.optionId ?? "");
  expect(board(358, selected).choices.length).toBeGreaterThan(1);
  expect(board(1232, selected).choices).toEqual([]);
  expect(board(358, { ...selected, paper: true }).choices).toEqual([]);
});
