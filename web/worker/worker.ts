import type { WindowsAnswer, WindowsRequest } from "../../model/harvest/index.ts";
import {
  answerOf,
  type Board as FoundBoard,
  findBoard,
  oddsSteps,
  PLAIN_SAYING,
} from "../../model/harvest/index.ts";
import { COURSE_DRAWS } from "../../model/odds/index.ts";
import { hour12Of, sayingOf } from "../format/manner.ts";
import { type Choice, chosen, type Selection } from "../state/choice.ts";
import { courseOnBoard } from "./compute.ts";
import type { Ask, RowCourse, SpokenTo, Tell, TellOdds, TellReady, Tried, Try } from "./messages.ts";
import { type RecordedDrying, recordedDrying, ribbonsOf, turnedRibbons } from "./ribbons.ts";

/** The last board: rows chosen on it are asked for one by one. */
interface Board {
  readonly id: number;
  readonly request: WindowsRequest;
  readonly answer: WindowsAnswer;
  readonly found: FoundBoard;
  readonly ribbonOf: RecordedDrying["ribbonOf"];
}

let board: Board | null = null;

// What a browser knows of a locale it reads once, and long: here, while the page is still being made, and not there.
new Intl.NumberFormat(navigator.language).format(0);
new Intl.DateTimeFormat(navigator.language, { hour: "numeric", timeZone: "UTC" }).format(0);

function tell(message: Tell | TellOdds | TellReady): void {
  postMessage(message);
}

function rowCourse(found: FoundBoard, choice: Choice, draws = 0): RowCourse | null {
  const outcome = courseOnBoard(found, choice, draws);
  if (!outcome?.ok) return null;
  return { optionId: choice.option.id, route: choice.route?.route ?? null, course: outcome.value };
}

function runBoard(
  id: number,
  request: WindowsRequest,
  selection: Selection | null,
  speech: SpokenTo | undefined,
  whole: boolean,
): void {
  const { tools, ribbonOf } = recordedDrying();
  // Here and not on the page: the first word of the browser about a locale takes it long.
  const saying = speech ? sayingOf({ ...speech, hour12: hour12Of(speech.locale) }) : PLAIN_SAYING;
  const outcome = findBoard(tools, request, saying);
  if (!outcome.ok) {
    tell({ kind: "refused", id, issues: outcome.issues });
    return;
  }
  const answer = answerOf(outcome.value);
  board = { id, request, answer, found: outcome.value, ribbonOf };
  if (!whole) {
    tellBoard(board, selection);
    return;
  }
  const bestBefore = answer.best.overall;
  withOdds(id, (now) => tellBoard(now, selection, bestBefore));
}

function tellBoard(
  { id, request, found, answer, ribbonOf }: Board,
  selection: Selection | null,
  bestBefore?: WindowsAnswer["best"]["overall"],
): void {
  const choice = chosen(answer, selection);
  const course = choice && rowCourse(found, choice, answer.odds ? COURSE_DRAWS : 0);
  const ribbons = ribbonsOf(ribbonOf, answer.options);
  tell({
    kind: "board",
    id,
    request,
    answer,
    course,
    ribbons,
    ...(bestBefore === undefined ? {} : { bestBefore }),
  });
}

function runCourse(id: number, selection: Selection): void {
  if (board?.id !== id) return;
  const choice = chosen(board.answer, selection);
  const course = choice && rowCourse(board.found, choice);
  if (course) tell({ kind: "course", id, course });
}

function runOddsCourse(id: number, selection: Selection): void {
  if (board?.id !== id) return;
  const choice = chosen(board.answer, selection);
  const course = choice && rowCourse(board.found, choice, COURSE_DRAWS);
  if (course) tell({ kind: "odds-course", id, course });
}

/** So long the odds may hold up a question that arrives meanwhile, ms. */
const SLICE_MS = 12;

function runOdds(id: number, selection: Selection | null): void {
  if (board?.id !== id) return;
  // A row whose course is asked for by itself, with what was measured on it, is not worked out twice.
  if (selection !== null) runOddsCourse(id, selection);
  withOdds(id, ({ answer, ribbonOf }, before) =>
    tell({ kind: "odds", id, answer, ribbons: turnedRibbons(ribbonOf, before, answer) }),
  );
}

/** The odds in slices, so that a lever moved meanwhile is answered at once; a newer board ends them. */
function withOdds(id: number, done: (board: Board, before: WindowsAnswer) => void): void {
  if (board?.id !== id) return;
  const steps = oddsSteps(board.found);
  const slice = () => {
    if (board?.id !== id) return;
    const untilMs = performance.now() + SLICE_MS;
    for (;;) {
      const step = steps.next();
      if (step.done) {
        const before = board.answer;
        board = { ...board, answer: step.value };
        done(board, before);
        return;
      }
      if (performance.now() < untilMs) continue;
      tell({ kind: "odds-progress", id, ...step.value });
      setTimeout(slice, 0);
      return;
    }
  };
  setTimeout(slice, 0);
}

function runTry({ request, row }: Try): Tried {
  const outcome = findBoard(recordedDrying().tools, request);
  if (!outcome.ok) return null;
  const answer = answerOf(outcome.value);
  const choice = row ? chosen(answer, row) : null;
  return { answer, course: choice && rowCourse(outcome.value, choice) };
}

addEventListener("message", ({ data }: MessageEvent<Ask>) => {
  try {
    if (data.kind === "course") runCourse(data.id, data.selection);
    else if (data.kind === "odds") runOdds(data.id, data.selection);
    else if (data.kind === "odds-course") runOddsCourse(data.id, data.selection);
    else if (data.kind === "tries") tell({ kind: "tries", id: data.id, tried: data.tries.map(runTry) });
    else runBoard(data.id, data.request, data.selection, data.speech, data.whole ?? false);
  } catch (error) {
    // What the model throws here is a mistake of ours, not of the user: said in words, never a blank page.
    const message = error instanceof Error ? error.message : String(error);
    tell({ kind: "refused", id: data.id, issues: [{ path: "", code: "model-error", message }] });
  }
});

// While the first question is still on its way: the browser's first word about a locale takes it long.
sayingOf({ units: "metric", locale: navigator.language, hour12: hour12Of(navigator.language) });
// Not before this script has ended: until the page knows that, it holds questions back.
setTimeout(() => tell({ kind: "ready" }), 0);
