import { expect, test } from "vitest";
import { findWindows, findWindowsWith } from "../../../model/harvest/index.ts";
import { chosen } from "../../../web/state/choice.ts";
import { DEMO_INPUTS, type Inputs } from "../../../web/state/inputs.ts";
import { readInputs } from "../../../web/state/read-inputs.ts";
import { courseOf } from "../../../web/worker/compute.ts";
import { recordedDrying, turnedRibbons } from "../../../web/worker/ribbons.ts";
import { sampleSeries } from "../../support/samples.ts";

const samples = ["settled-dry", "showers-every-other-day", "humid-cloudy-dew", "drought-heat"];
const passes: readonly Partial<Inputs>[] = [
  {},
  { ted: "none", rake: "before-window" },
  { ted: "after-cut", rake: "none" },
];

test.each(samples.flatMap((id) => passes.map((more) => [id, more] as const)))(
  "%s %j: the recorded swath of every row is the course of that row, and the answer is the model's own",
  (id, more) => {
    const { question } = readInputs({ ...DEMO_INPUTS, ...more });
    if (question === null) throw new Error("no question");
    const request = { ...question, weather: sampleSeries(id) };
    const { tools, ribbonOf } = recordedDrying();
    const outcome = findWindowsWith(tools, request);
    expect(outcome).toEqual(findWindows(request));
    if (!outcome.ok) throw new Error("no answer");
    for (const option of outcome.value.options) {
      const choice = chosen(outcome.value, { optionId: option.id, route: null });
      const course = choice && courseOf(request, choice);
      if (!course?.ok) throw new Error("no course");
      const ribbon = ribbonOf(option);
      expect([...(ribbon?.moistureWb ?? [])]).toEqual(course.value.hours.moistureWb);
      expect([...(ribbon?.freeWaterMm ?? [])]).toEqual(course.value.hours.freeWaterMm);
      expect(ribbon?.startMs).toBe(Date.parse(course.value.hours.startUtc[0] ?? ""));
    }
  },
);

test("a row whose best route the odds change is drawn under that route's passes; the others are left as they are", () => {
  const { question } = readInputs({ ...DEMO_INPUTS, ted: "none", rake: "before-window" });
  if (question === null) throw new Error("no question");
  const request = { ...question, weather: sampleSeries("settled-dry"), cutHours: [9] };
  const { tools, ribbonOf } = recordedDrying();
  const outcome = findWindowsWith(tools, request);
  if (!outcome.ok) throw new Error("no answer");
  const before = outcome.value;
  const turning = before.options.find(({ routes }) =>
    routes.some(
      ({ route, rank, operations }) => route === "dry-hay" && rank !== null && operations.length > 0,
    ),
  );
  if (!turning) throw new Error("no dry hay");
  const turned = (route: string) => ({
    ...before,
    options: before.options.map((option) =>
      option.id === turning.id
        ? {
            ...option,
            routes: option.routes.map((one) => ({ ...one, rank: one.route === route ? 1 : 100 })),
          }
        : option,
    ),
  });
  const [hay, chop] = [turned("dry-hay"), turned("wilted-chop")];
  expect(turnedRibbons(ribbonOf, hay, hay)).toEqual({});
  const ribbons = turnedRibbons(ribbonOf, chop, hay);
  expect(Object.keys(ribbons)).toEqual([turning.id]);
  const choice = chosen(hay, { optionId: turning.id, route: "dry-hay" });
  const course = choice && courseOf(request, choice);
  if (!course?.ok) throw new Error("no course");
  expect([...(ribbons[turning.id]?.moistureWb ?? [])]).toEqual(course.value.hours.moistureWb);
});
