import type { WindowsAnswer, WindowsRequest } from "../../model/harvest/index.ts";
import { findWindows } from "../../model/harvest/index.ts";
import type { Outcome } from "../../model/limits.ts";
import { type PreparedWeather, prepareWeather } from "../../model/weather/index.ts";
import { type Choice, chosen, type Selection } from "../state/choice.ts";
import { courseOf } from "./compute.ts";
import type { Ask, RowCourse, Tell } from "./messages.ts";

/** The board under work. A newer question replaces it; what is left of the older is dropped. */
interface Board {
  readonly id: number;
  readonly request: WindowsRequest;
  readonly answer: WindowsAnswer;
  readonly prepared: Outcome<PreparedWeather>;
}

const RIBBONS_A_MESSAGE = 4;

let latestId = -1;
let board: Board | null = null;

function tell(message: Tell): void {
  postMessage(message);
}

function rowCourse({ request, prepared }: Board, choice: Choice): RowCourse | null {
  const outcome = courseOf(request, choice, prepared);
  if (!outcome?.ok) return null;
  return { optionId: choice.option.id, route: choice.route?.route ?? null, course: outcome.value };
}

/** Lets messages that have arrived be read before the next piece of work. */
function breathe(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 0));
}

async function runBoard(id: number, request: WindowsRequest, selection: Selection | null): Promise<void> {
  await breathe();
  if (id !== latestId) return;
  const outcome = findWindows(request);
  if (!outcome.ok) {
    tell({ kind: "refused", id, issues: outcome.issues });
    return;
  }
  const answer = outcome.value;
  board = { id, request, answer, prepared: prepareWeather(request.weather) };
  const choice = chosen(answer, selection);
  const course = choice && rowCourse(board, choice);
  tell({ kind: "board", id, request, answer, course });
  await runRibbons(board, course?.optionId ?? null);
}

async function runRibbons(of: Board, done: string | null): Promise<void> {
  const { id, answer } = of;
  let courses: RowCourse[] = [];
  for (const option of answer.options) {
    if (option.kind !== "swath" || option.id === done) continue;
    await breathe();
    if (id !== latestId) return;
    const choice = chosen(answer, { optionId: option.id, route: null });
    const course = choice && rowCourse(of, choice);
    if (course) courses.push(course);
    if (courses.length === RIBBONS_A_MESSAGE) {
      tell({ kind: "ribbons", id, courses });
      courses = [];
    }
  }
  if (courses.length > 0) tell({ kind: "ribbons", id, courses });
}

function runCourse(id: number, selection: Selection): void {
  if (board?.id !== id) return;
  const choice = chosen(board.answer, selection);
  const course = choice && rowCourse(board, choice);
  if (course) tell({ kind: "course", id, course });
}

addEventListener("message", ({ data }: MessageEvent<Ask>) => {
  if (data.kind === "course") {
    runCourse(data.id, data.selection);
    return;
  }
  latestId = data.id;
  void runBoard(data.id, data.request, data.selection).catch((error: unknown) => {
    // What the model throws here is a mistake of ours, not of the user: said in words, never a blank page.
    const message = error instanceof Error ? error.message : String(error);
    tell({ kind: "refused", id: data.id, issues: [{ path: "", code: "model-error", message }] });
  });
});
