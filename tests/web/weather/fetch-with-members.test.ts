import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { fetchWithMembers, MEMBERS_GRACE_MS } from "../../../web/weather/fetch-with-members.ts";
import { forecastQuery } from "../../../web/weather/forecast.ts";
import { readSample } from "../../support/samples.ts";

const place = { latitude: 44.3, longitude: -98.2, elevationM: null, timeZone: null, provider: null };
const { series } = readSample("settled-dry");
const { hours } = series;
const plain = { ...series, members: undefined };
const whole = { ...series, members: [{ airTempC: hours.airTempC }, { airTempC: hours.airTempC }] };

interface Service {
  readonly ms: number;
  readonly body: unknown;
  readonly status?: number;
}

/** The server's answers with and without members, each after its time. */
function serve({ single, ensemble }: { readonly single: Service; readonly ensemble: Service }): void {
  vi.stubGlobal("fetch", async (address: string) => {
    const asksMembers = new URL(address, "http://localhost/").searchParams.get("ensemble") === "true";
    const { ms, body, status = 200 } = asksMembers ? ensemble : single;
    await new Promise((resolve) => setTimeout(resolve, ms));
    return Response.json(body, { status });
  });
}

async function ask() {
  const startMs = Date.now();
  const answer = fetchWithMembers(place, new AbortController().signal).then((got) => ({
    ...got,
    ms: Date.now() - startMs,
  }));
  await vi.runAllTimersAsync();
  return answer;
}

const membersOf = (forecast: object | null | undefined) =>
  forecast && "series" in forecast
    ? ((forecast as { series: typeof whole }).series.members?.length ?? 0)
    : null;

beforeEach(() => {
  vi.useFakeTimers();
});

afterEach(() => {
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

test("the members are asked for with the place, or not at all", () => {
  expect(forecastQuery(place, true)).toBe("latitude=44.3&longitude=-98.2&ensemble=true");
  expect(forecastQuery({ ...place, provider: "nws" }, false)).toBe(
    "latitude=44.3&longitude=-98.2&provider=nws",
  );
});

test("members that are quick come with the first answer, and nothing after it", async () => {
  serve({ single: { ms: 300, body: plain }, ensemble: { ms: 300 + MEMBERS_GRACE_MS - 1, body: whole } });
  const { first, late, ms } = await ask();
  expect("forecast" in first && membersOf(first.forecast)).toBe(2);
  expect(late).toBeUndefined();
  expect(ms).toBe(300 + MEMBERS_GRACE_MS - 1);
});

test("members that are slow hold nothing up: the forecast alone is there first, then it comes with them", async () => {
  serve({ single: { ms: 300, body: plain }, ensemble: { ms: 17_000, body: whole } });
  const { first, late, ms } = await ask();
  expect("forecast" in first && membersOf(first.forecast)).toBe(0);
  expect(ms).toBe(300 + MEMBERS_GRACE_MS);
  expect(membersOf(await late)).toBe(2);
});

test("members that fail leave the forecast alone, at once or late", async () => {
  const broken = { body: { error: "failed", message: "It failed.", issues: [] }, status: 500 };
  for (const failsMs of [10, 17_000]) {
    serve({ single: { ms: 300, body: plain }, ensemble: { ms: failsMs, ...broken } });
    const { first, late } = await ask();
    expect("forecast" in first && membersOf(first.forecast)).toBe(0);
    expect((await late) ?? null).toBeNull();
  }
});

test("no forecast either way: one failure, in words", async () => {
  const broken = { body: { error: "failed", message: "It failed.", issues: [] }, status: 500 };
  serve({ single: { ms: 300, ...broken }, ensemble: { ms: 17_000, ...broken } });
  const { first, late } = await ask();
  expect(first).toMatchObject({ failure: { message: "It failed." } });
  expect(late).toBeUndefined();
});
