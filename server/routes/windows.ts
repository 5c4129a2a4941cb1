import type { ComparedWindows, WindowsRequest } from "../../model/harvest/index.ts";
import { windowsRequest } from "../schemas/windows.ts";
import { windowsAnswer } from "../schemas/windows-answer.ts";
import type { Answering } from "../verb.ts";
import { verbRoute } from "./verb-route.ts";

export const windowsRoutes = (findWindows: Answering<WindowsRequest, ComparedWindows>) =>
  verbRoute({
    path: "/api/windows",
    summary: "Every cut option against every route",
    verb: { schema: windowsRequest, answer: findWindows },
    answerSchema: windowsAnswer,
  });
