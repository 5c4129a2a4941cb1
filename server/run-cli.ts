import type { CrewPlanAnswer, CrewPlanRequest } from "../model/crew/index.ts";
import type { DrydownAnswer, DrydownRequest } from "../model/drying/index.ts";
import type { FeedCheckAnswer, FeedCheckRequest } from "../model/feed/index.ts";
import type { ComparedWindows, WindowsRequest } from "../model/harvest/index.ts";
import { recordAnswer } from "../model/odds/index.ts";
import { type BookTools, bookCli } from "./book/book-cli.ts";
import { crewVerb } from "./crew/crew-verb.ts";
import { type ErrorBody, plainProblem } from "./problem.ts";
import { drydownRequest } from "./schemas/drydown.ts";
import { feedCheckRequest } from "./schemas/feed-check.ts";
import { recordRequest } from "./schemas/record.ts";
import { windowsRequest } from "./schemas/windows.ts";
import { type Answering, ask, jsonOfAnswer, type Reply } from "./verb.ts";

/** The model's functions that the command line calls. */
export interface CliModel {
  readonly drydown: Answering<DrydownRequest, DrydownAnswer>;
  readonly findWindows: Answering<WindowsRequest, ComparedWindows>;
  readonly feedCheck: Answering<FeedCheckRequest, FeedCheckAnswer>;
  readonly crewPlan: Answering<CrewPlanRequest, CrewPlanAnswer>;
}

export interface CliResult {
  readonly exitCode: 0 | 2;
  readonly stdout: string;
  readonly stderr: string;
}

const USAGE = `Usage: npm run -s cli -- VERB < request.json > answer.json

  drydown      the hour-by-hour course of one cut      (as POST /api/drydown)
  windows      every cut option against every route    (as POST /api/windows)
  feed-check   nitrate and prussic acid of a ration    (as POST /api/feed-check)
  crew-plan    who does what when on many fields       (as POST /api/crew-plan)
  record       scores of issued forecasts that met a reading (as POST /api/record)
  book export                    the whole book as one document   (as GET /api/book/export)
  book import [add|replace]      a whole book taken in            (as POST /api/book/import)
  book due [DAYS]                what the coming days ask for     (as GET /api/book/due)
  book record                    the book's forecasts scored      (as GET /api/book/record)
  help         this text

Takes and gives exactly the API's JSON; server/examples/ holds a request of each to start from: drydown.json,
windows.json, feed-check.json, crew-plan.json, record.json. All in them is invented.
Exits 0, or 2 with the error as JSON on standard error.
`;

const VERBS = ["drydown", "windows", "feed-check", "crew-plan", "record", "book", "help"];

function answerOf(verb: string, input: Uint8Array, model: CliModel): Promise<Reply<unknown>> {
  switch (verb) {
    case "drydown":
      return ask({ schema: drydownRequest, answer: model.drydown }, input);
    case "feed-check":
      return ask({ schema: feedCheckRequest, answer: model.feedCheck }, input);
    case "record":
      return ask({ schema: recordRequest, answer: recordAnswer }, input);
    case "crew-plan":
      return ask(crewVerb(model.crewPlan), input);
    default:
      return ask({ schema: windowsRequest, answer: model.findWindows }, input);
  }
}

function refuse(body: ErrorBody): CliResult {
  return { exitCode: 2, stdout: "", stderr: `${JSON.stringify(body)}\n` };
}

async function bookReply(
  words: readonly string[],
  readInput: () => Promise<Uint8Array>,
  tools: BookTools | undefined,
): Promise<CliResult> {
  if (tools === undefined) return refuse(plainProblem("book-unavailable", "no book is set up here"));
  const done = await bookCli(words, readInput, tools);
  if (!done.ok) return refuse(done.body);
  return { exitCode: 0, stdout: done.text === "" ? "" : `${done.text}\n`, stderr: "" };
}

function reply(answer: Reply<unknown>): CliResult {
  if (!answer.ok) return refuse(answer.body);
  const json = jsonOfAnswer(answer.value);
  const text = typeof json === "string" ? json : new TextDecoder().decode(json);
  return { exitCode: 0, stdout: `${text}\n`, stderr: "" };
}

/** One call of the command line, from its words and its input to what it prints. */
export async function runCli(
  words: readonly string[],
  readInput: () => Promise<Uint8Array>,
  model: CliModel,
  tools?: BookTools,
): Promise<CliResult> {
  const verb = words[0];
  if (words.includes("--help") || words.includes("-h") || verb === "help") {
    return { exitCode: 0, stdout: USAGE, stderr: "" };
  }
  const known = `known verbs: ${VERBS.join(", ")}`;
  if (verb === undefined) return refuse(plainProblem("unknown-verb", `no verb given; ${known}`));
  if (!VERBS.includes(verb)) return refuse(plainProblem("unknown-verb", `got "${verb}"; ${known}`));
  if (verb === "book") return bookReply(words.slice(1), readInput, tools);
  if (words.length > 1) {
    return refuse(
      plainProblem("unknown-word", `got "${words[1]}" after ${verb}; the request comes on standard input`),
    );
  }
  const input = await readInput();
  try {
    return reply(await answerOf(verb, input, model));
  } catch (error) {
    const reason = error instanceof Error ? error.message : "unknown";
    return refuse(plainProblem("internal", `the answer could not be computed: ${reason}`));
  }
}
