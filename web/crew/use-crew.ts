import { useEffect, useRef, useState } from "preact/hooks";
import type {
  CrewJobAnswer,
  CrewPlanAnswer,
  CrewPlanRequest,
  CrewProgress,
  FieldReplay,
  FieldsDone,
  PlanFault,
  WordsOfJobs,
} from "../../model/crew/index.ts";
import type { Issue } from "../../model/limits.ts";
import type { Caution } from "./all-faults.ts";
import type { CrewAsk, CrewTell } from "./messages.ts";

/** What a plan is that a person changed. */
export interface Checked extends WordsOfJobs {
  readonly faults: readonly PlanFault[];
  readonly replay: readonly FieldReplay[];
}

export interface Crew {
  /** The last plan; it stays in sight while another is worked out or refused. */
  readonly answer: CrewPlanAnswer | null;
  /** The question that it answers; another may have been asked meanwhile. */
  readonly request: CrewPlanRequest | null;
  /** What is being done, null = nothing. */
  readonly busy: "plan" | "prove" | null;
  readonly progress: CrewProgress | null;
  /** Fields whose windows are known, while they are worked out. */
  readonly windows: FieldsDone | null;
  /** True while a better founded plan than the one in sight is on its way. */
  readonly refining: boolean;
  readonly issues: readonly Issue[];
  readonly checked: Checked | null;
  /** What speaks against works that the last plan holds at their hour. */
  readonly cautions: readonly Caution[];
  readonly plan: (request: CrewPlanRequest) => void;
  readonly prove: (timeLimitS: number) => void;
  readonly cancel: () => void;
  readonly check: (jobs: readonly CrewJobAnswer[]) => void;
}

/** The crew plan's worker, started when the plan is opened and ended with it. */
export function useCrew(): Crew {
  const worker = useRef<Worker | null>(null);
  const lastId = useRef(0);
  const lastCheck = useRef(0);
  const asked = useRef<CrewPlanRequest | null>(null);
  const [answer, setAnswer] = useState<CrewPlanAnswer | null>(null);
  const [request, setRequest] = useState<CrewPlanRequest | null>(null);
  const [busy, setBusy] = useState<Crew["busy"]>(null);
  const [progress, setProgress] = useState<CrewProgress | null>(null);
  const [windows, setWindows] = useState<FieldsDone | null>(null);
  const [refining, setRefining] = useState(false);
  const [issues, setIssues] = useState<readonly Issue[]>([]);
  const [checked, setChecked] = useState<Checked | null>(null);
  const [cautions, setCautions] = useState<readonly Caution[]>([]);

  const hear = (data: CrewTell) => {
    if (data.kind === "checked") {
      if (data.id === lastCheck.current) setChecked(data);
      return;
    }
    if (data.id !== lastId.current) return;
    if (data.kind === "windows") {
      setWindows(data.windows);
      return;
    }
    if (data.kind === "progress") {
      setWindows(null);
      setProgress(data.progress);
      return;
    }
    if (data.kind === "answer") {
      setCautions(data.cautions);
      if (!data.stopped) setRequest(asked.current);
    }
    if (data.kind === "answer" && data.more) {
      setAnswer(data.answer);
      setRefining(true);
      return;
    }
    setBusy(null);
    setProgress(null);
    setWindows(null);
    setRefining(false);
    if (data.kind === "refused") {
      setIssues(data.issues);
      return;
    }
    setAnswer(data.answer);
    setChecked(null);
  };
  const begin = () => {
    const made = new Worker(new URL("./crew-worker.ts", import.meta.url), { type: "module" });
    made.onmessage = ({ data }: MessageEvent<CrewTell>) => hear(data);
    made.onerror = () => {
      setBusy(null);
      setWindows(null);
      setRefining(false);
      setIssues([
        { path: "", code: "worker", message: "The plan could not be worked out. Load the page again." },
      ]);
    };
    worker.current = made;
    return made;
  };
  useEffect(() => () => worker.current?.terminate(), []);
  const ask = (message: CrewAsk) => (worker.current ?? begin()).postMessage(message);
  const start = (kind: "plan" | "prove") => {
    lastId.current += 1;
    setBusy(kind);
    setIssues([]);
    setRefining(false);
    return lastId.current;
  };
  return {
    answer,
    request,
    busy,
    progress,
    windows,
    refining,
    issues,
    checked,
    cautions,
    plan: (question) => {
      // A search that is under way would hold the new question up.
      if (busy !== null) {
        worker.current?.terminate();
        worker.current = null;
      }
      asked.current = question;
      ask({ kind: "plan", id: start("plan"), request: question });
    },
    prove: (timeLimitS) => ask({ kind: "prove", id: start("prove"), timeLimitS }),
    cancel: () => ask({ kind: "cancel" }),
    check: (jobs) => {
      lastCheck.current += 1;
      ask({ kind: "check", id: lastCheck.current, jobs });
    },
  };
}
