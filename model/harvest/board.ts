import type { Outcome } from "../limits.ts";
import type { WindowsAnswer } from "./answer.ts";
import type { WindowsRequest } from "./request.ts";

/** Every cut option against every route: what /api/windows, the command line and the page's worker call. */
export function findWindows(_request: WindowsRequest): Outcome<WindowsAnswer> {
  throw new Error("findWindows: placeholder until the windows are in place");
}
