import type { WindowsRequest } from "../../model/harvest/index.ts";
import type { Action } from "../state/action.ts";
import type { Selection } from "../state/choice.ts";
import type { Inputs } from "../state/inputs.ts";
import type { WeatherSource } from "../weather/source.ts";
import type { Ask, SpokenTo, Tell, TellOdds, TellReady, Tried, Try } from "../worker/messages.ts";

export type Dispatch = (action: Action) => void;

export function startWorker(): Worker {
  return new Worker(new URL("../worker/worker.ts", import.meta.url), { type: "module" });
}

/** What is to be asked of the worker, and of what weather and inputs: for the picture that the answer becomes. */
export interface Question {
  readonly source: WeatherSource;
  readonly inputs: Inputs;
  readonly request: WindowsRequest;
  readonly speech: SpokenTo;
  /** True where only its reader changed, or slow members came: it is answered with its odds, and holds up no other question. */
  readonly whole: boolean;
}

/**
 * The worker answers one question at a time. What is asked while it works waits, and only the latest of it is kept: a
 * lever that is moved fast is followed as fast as the model runs, and never falls behind.
 */
export class Asker {
  #worker: Worker;
  #dispatch: Dispatch = () => {};
  #selection: () => Selection | null = () => null;
  #lastId = 0;
  #busy = false;
  #waiting: Question | null = null;
  #lastTry = 0;
  readonly #tried = new Map<number, (tried: readonly Tried[]) => void>();

  constructor(worker: Worker) {
    this.#worker = worker;
    this.#listen();
  }

  /** Whom the answers are told to from now on, and where the row is read whose course a question asks for. */
  follow(dispatch: Dispatch, selection: () => Selection | null): void {
    this.#dispatch = dispatch;
    this.#selection = selection;
  }

  #listen(): void {
    this.#worker.onmessage = ({ data }: MessageEvent<Tell | TellOdds | TellReady>) => {
      if (data.kind === "ready") return;
      if (data.kind === "tries") {
        this.#tried.get(data.id)?.(data.tried);
        this.#tried.delete(data.id);
        return;
      }
      if (data.kind === "board" || data.kind === "refused") this.#free();
      this.#dispatch({ kind: "told", tell: data });
    };
    this.#worker.onerror = (event) => {
      // A worker that fell over answers nothing more: the next question goes to a new one.
      this.#worker.terminate();
      this.#worker = startWorker();
      this.#listen();
      for (const resolve of this.#tried.values()) resolve([]);
      this.#tried.clear();
      const message = event.message || "the model could not be started";
      const issues = [{ path: "", code: "worker", message }];
      this.#dispatch({ kind: "told", tell: { kind: "refused", id: this.#lastId, issues } });
      this.#free();
    };
  }

  #free(): void {
    this.#busy = false;
    const next = this.#waiting;
    this.#waiting = null;
    if (next) this.ask(next);
  }

  ask(question: Question): void {
    if (this.#busy) {
      this.#waiting = question;
      return;
    }
    const id = ++this.#lastId;
    const { source, inputs, request, speech, whole } = question;
    // Odds are worked out in slices, between which the worker hears a newer question.
    this.#busy = !whole;
    this.#dispatch({ kind: "asked", id, source, inputs });
    this.#send({ kind: "board", id, request, selection: this.#selection(), speech, whole });
  }

  course(id: number, selection: Selection): void {
    this.#send({ kind: "course", id, selection });
  }

  /** The odds of a board that has been drawn; its row's course is asked for apart. */
  odds(id: number): void {
    this.#send({ kind: "odds", id, selection: null });
  }

  oddsCourse(id: number, selection: Selection): void {
    this.#send({ kind: "odds-course", id, selection });
  }

  /** Boards beside the picture's own, one a try; none where the worker falls over meanwhile. */
  tries(tries: readonly Try[]): Promise<readonly Tried[]> {
    const id = ++this.#lastTry;
    return new Promise((resolve) => {
      this.#tried.set(id, resolve);
      this.#send({ kind: "tries", id, tries });
    });
  }

  #send(ask: Ask): void {
    this.#worker.postMessage(ask);
  }

  stop(): void {
    this.#worker.terminate();
  }
}
