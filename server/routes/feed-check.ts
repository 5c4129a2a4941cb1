import type { FeedCheckAnswer, FeedCheckRequest } from "../../model/feed/index.ts";
import { feedCheckAnswer, feedCheckRequest } from "../schemas/feed-check.ts";
import type { Answering } from "../verb.ts";
import { verbRoute } from "./verb-route.ts";

export const feedCheckRoutes = (feedCheck: Answering<FeedCheckRequest, FeedCheckAnswer>) =>
  verbRoute({
    path: "/api/feed-check",
    summary: "Nitrate and prussic acid of feeds and water for one animal: a screen, never a clearance",
    verb: { schema: feedCheckRequest, answer: feedCheck },
    answerSchema: feedCheckAnswer,
  });
