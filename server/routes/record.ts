import { type RecordAnswer, type RecordRequest, recordAnswer } from "../../model/odds/index.ts";
import { recordRequest, recordResult } from "../schemas/record.ts";
import type { Answering } from "../verb.ts";
import { verbRoute } from "./verb-route.ts";

export const recordRoutes = (answer: Answering<RecordRequest, RecordAnswer> = recordAnswer) =>
  verbRoute({
    path: "/api/record",
    summary: "Scores of issued forecasts that met a reading",
    verb: { schema: recordRequest, answer },
    answerSchema: recordResult,
  });
