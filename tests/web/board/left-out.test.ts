import { expect, test } from "vitest";
import { findWindows } from "../../../model/harvest/index.ts";
import { localDayKey } from "../../../model/weather/clock.ts";
import { leftOutHours, leftOutWords } from "../../../web/board/left-out.ts";
import { toBoard } from "../../../web/board/to-board.ts";
import { sayingOf } from "../../../web/format/manner.ts";
import { DEMO_INPUTS } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import { sampleSeries } from "../../support/samples.ts";

const series = sampleSeries("settled-dry");
const manner = { units: "metric", hour12: false, locale: "en-GB", zone: series.site.timeZone } as const;

function answered(mowHaPerH: string) {
  const texts = { ...DEMO_INPUTS.texts, mowHaPerH: { text: mowHaPerH, units: "metric" } as const };
  const { question } = readInputs({ ...DEMO_INPUTS, texts });
  if (question === null) throw new Error("no question");
  const outcome = findWindows({ ...question, weather: series }, sayingOf(manner));
  if (!outcome.ok) throw new Error("no answer");
  return outcome.value;
}

test("a cut hour whose mowing runs past the working day is told with its row", () => {
  const slow = answered("1.5");
  const day = localDayKey(Date.parse(slow.options[3]?.cutUtc ?? ""), manner.zone);
  const hours = leftOutHours(slow, day, [9, 13, 17], Number.NEGATIVE_INFINITY, manner.zone);
  const said = hours && leftOutWords(hours, manner);
  expect(said).toMatch(
    /^No cut at 17:00: mowing takes [\d.]+ hours, which does not fit the working hours\.$/,
  );
  const [row] = toBoard(slow, series, {}, manner, 1200, { cutHours: [9, 13, 17] }).rows.slice(1);
  expect(row?.more[0]).toBe(said);
  const unfolded = [row?.unfold?.dayKey ?? ""];
  const { rows } = toBoard(slow, series, {}, manner, 1200, { cutHours: [9, 13, 17], unfolded });
  const [left] = rows.filter(({ offered }) => !offered);
  expect(left?.hour).toBe("17:00");
  expect(left?.reason?.lines.join(" ")).toMatch(/^Not offered: mowing takes/);
  expect(left?.sentence).toMatch(/^No cut \w+day 17:00: mowing takes [\d.]+ hours/);
});

test("nothing is said where no hour was left out, or where the weather ends", () => {
  const fast = answered("6");
  const last = toBoard(fast, series, {}, manner, 1200, { cutHours: [9, 13, 17] });
  for (const { more } of last.rows) expect(more.join(" ")).not.toMatch(/No cut at/);
});
