import type { DrydownAnswer, DrydownRequest } from "../../model/drying/index.ts";
import type { Outcome } from "../../model/limits.ts";
import { drydownRequest } from "../schemas/drydown.ts";
import { drydownAnswer } from "../schemas/drydown-answer.ts";
import { verbRoute } from "./verb-route.ts";

export const drydownRoutes = (drydown: (request: DrydownRequest) => Outcome<DrydownAnswer>) =>
  verbRoute({
    path: "/api/drydown",
    summary: "The hour-by-hour course of one cut",
    verb: { schema: drydownRequest, answer: drydown },
    answerSchema: drydownAnswer,
  });
