import { expect, test } from "vitest";
import type { Asker, Question } from "../../../web/app/asker.ts";
import { ask } from "../../../web/app/question.ts";
import { DEMO_INPUTS } from "../../../web/state/inputs.ts";
import { reduce } from "../../../web/state/reducer.ts";
import { firstState, type State } from "../../../web/state/state.ts";
import { readSample } from "../../support/samples.ts";

const { series } = readSample("settled-dry");
const place = { latitude: 44.3, longitude: -98.2, elevationM: null, timeZone: null, provider: null };
const fetched = { ...series, origin: "forecast" as const, fetchedUtc: "2026-07-01T00:00:00Z" };
const opened = firstState({
  timeZone: "UTC",
  locale: "en",
  nowMs: Date.UTC(2026, 6, 1),
  online: true,
  preferences: { units: "metric", theme: "system" },
  inputs: DEMO_INPUTS,
});

/** A forecast as it came, and whether the board is asked for with its odds: the one on the page then stays until they are there. */
function askAll(...states: readonly State[]): boolean[] {
  const wholes: boolean[] = [];
  const asker = { ask: ({ whole }: Question) => wholes.push(whole) } as unknown as Asker;
  states.reduce<ReturnType<typeof ask>>((last, state) => ask(asker, state, last), null);
  return wholes;
}

test("members that come late are worked through behind the board that is shown; newer weather is told at once", () => {
  const got = [
    { kind: "forecast-asked", place } as const,
    { kind: "forecast-got", place, forecast: { series: fetched, notes: [] } } as const,
  ].reduce(reduce, opened);
  const shown = { ...got, picture: { answer: { odds: {} } } as unknown as State["picture"] };
  const members = [{ airTempC: fetched.hours.airTempC }];
  const grown = (fetchedUtc: string) =>
    reduce(shown, {
      kind: "members-got",
      place,
      forecast: { series: { ...fetched, fetchedUtc, members }, notes: [] },
    });
  expect(askAll(got, grown(fetched.fetchedUtc))).toEqual([false, true]);
  expect(askAll(got, grown("2026-07-01T01:00:00Z"))).toEqual([false, false]);
  // Without chances on the page there is nothing to keep.
  expect(askAll(got, { ...grown(fetched.fetchedUtc), picture: null })).toEqual([false, false]);
});
