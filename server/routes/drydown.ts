import type { DrydownAnswer, DrydownRequest } from "../../model/drying/index.ts";
import { drydownRequest } from "../schemas/drydown.ts";
import { drydownAnswer } from "../schemas/drydown-answer.ts";
import type { Answering } from "../verb.ts";
import { verbRoute } from "./verb-route.ts";

export const drydownRoutes = (drydown: Answering<DrydownRequest, DrydownAnswer>) =>
  verbRoute({
    path: "/api/drydown",
    summary: "The hour-by-hour course of one cut",
    verb: { schema: drydownRequest, answer: drydown },
    answerSchema: drydownAnswer,
  });
