import { expect, test } from "vitest";
import { type BuiltCrew, buildGrid } from "../../../model/crew/index.ts";
import { withHour, withPerson } from "../../../model/crew/variants.ts";
import { crewRequest, FROM_UTC } from "../../support/crew/requests.ts";

const utc = (hour: number) =>
  new Date(Date.parse(FROM_UTC) + hour * 3_600_000).toISOString().replace(".000Z", "Z");

/** The weather begins at midnight of the farm: a slot is an hour of the clock. */
function gridOf(): BuiltCrew["grid"] {
  const built = buildGrid(
    crewRequest({
      people: [
        {
          id: "a",
          from: "07:00",
          to: "18:00",
          // A break at noon, an appointment from four to the end of the second day, another after the third.
          offUtc: [
            { fromUtc: utc(12), toUtc: utc(13) },
            { fromUtc: utc(40), toUtc: utc(42) },
            { fromUtc: utc(66), toUtc: utc(68) },
          ],
        },
        { id: "b", from: "07:00", to: "20:00", offUtc: [{ fromUtc: utc(0), toUtc: utc(200) }] },
      ],
    }),
  );
  if (!built.ok) throw new Error(JSON.stringify(built.issues));
  return built.value.grid;
}

const stretches = (freeUntil: Int32Array | undefined, to: number) =>
  [...(freeUntil ?? new Int32Array()).subarray(0, to)].flatMap((end, t, all) =>
    end > t && (t === 0 || (all[t - 1] ?? 0) <= t - 1) ? [[t, end]] : [],
  );

test("one more person has the longest hours of anybody, and none of their times off", () => {
  const grid = gridOf();
  const { people } = withPerson(grid);
  expect(people).toHaveLength(3);
  expect(stretches(people[2]?.freeUntil, 48)).toEqual([
    [7, 20],
    [31, 44],
  ]);
});

test("an hour more lengthens the evening, and neither the break nor the way to an appointment", () => {
  const { people } = withHour(gridOf());
  expect(stretches(people[0]?.freeUntil, 72)).toEqual([
    [7, 12],
    [13, 19],
    [31, 40],
    [55, 66],
  ]);
  expect(stretches(people[1]?.freeUntil, 72)).toEqual([]);
});
