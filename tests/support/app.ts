import type { DrydownAnswer } from "../../model/drying/answer.ts";
import { type AppModel, type AppParts, createApp } from "../../server/app.ts";

const refuses = () => ({ ok: false as const, issues: [{ path: "", code: "fake", message: "a fake" }] });

/** A model that answers nothing: for tests of the server's own work. */
export const SILENT_MODEL: AppModel = {
  version: "fake",
  drydown: refuses,
  findWindows: refuses,
  feedCheck: refuses,
  crewPlan: refuses,
  checkUpload: ({ text }) => ({
    series: null,
    understood: [],
    clock: { timeZone: "UTC", dst: false, label: "start", centroidH: null },
    questions: [],
    problems: [],
    counts: { rows: text.split("\n").length, hours: 0, filled: 0, missing: 0 },
    preview: [],
    gaps: [],
    headerKey: "",
  }),
  template: "startUtc,airTempC\n",
};

/** The whole app with fakes, but for what a test gives. */
export function fakeApp(parts: Partial<AppParts> = {}) {
  return createApp({ samples: [], model: SILENT_MODEL, ...parts });
}

export function post(
  app: ReturnType<typeof createApp>,
  path: string,
  body: unknown,
  headers: HeadersInit = {},
) {
  const text = typeof body === "string" ? body : JSON.stringify(body);
  return app.request(path, {
    method: "POST",
    body: text,
    headers: { "content-type": "application/json", ...Object.fromEntries(new Headers(headers)) },
  });
}

/** The smallest answer of the right shape. */
export const SMALL_ANSWER: DrydownAnswer = {
  modelVersion: "fake",
  areaBasis: "covered-m2",
  usableUntilUtc: "2026-07-02T00:00:00Z",
  hours: {
    startUtc: [],
    moistureWb: [],
    leafMoistureWb: [],
    stemMoistureWb: [],
    equilibriumWb: [],
    dryMatterGM2: [],
    coveredFraction: [],
    freeWaterMm: [],
    rainMm: [],
    interceptedMm: [],
    drainedMm: [],
    dewMm: [],
    vapourUptakeMm: [],
    absorbedMm: [],
    evaporationMm: [],
    operationMm: [],
  },
  targets: [],
  secondOpinions: [],
  missingHours: 0,
  assumptions: [],
  warnings: [],
  warningCodes: [],
};
