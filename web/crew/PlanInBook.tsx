import { useEffect, useRef, useState } from "preact/hooks";
import type { CrewPlanAnswer, CrewPlanRequest } from "../../model/crew/index.ts";
import type { Session } from "../book/holder.ts";
import { SubscriptionField } from "../book/SubscriptionField.tsx";
import { fetchSession, mayEdit } from "../book/session.ts";
import { utcText } from "./MomentField.tsx";
import { usePlanInBook } from "./use-plan-in-book.ts";
import "./crew-edit.css";

interface InBookProps {
  readonly planId: string;
  readonly inBook: boolean;
  /** The plan as seen, works that were moved by hand among it. */
  readonly plan: CrewPlanAnswer;
  /** A plan that was worked out to the end and that nobody moved: it follows into the book by itself. */
  readonly final: boolean;
  readonly request: CrewPlanRequest | null;
  readonly onKept: () => void;
}

const MINUTE_MS = 60_000;

const WAITING = {
  unsent: "Waits on this device until the server can be reached.",
  conflict: "Another device has changed this plan in the book: choose there which one stays.",
  refused: "The server refused the plan: see the book.",
} as const;

/** The plan in the book, and the address from which calendars follow it. */
export function PlanInBook({ planId, inBook, plan, final, request, onKept }: InBookProps) {
  const { entry, waiting, keep } = usePlanInBook(planId, inBook);
  const [session, setSession] = useState<Session | null>(null);
  const lastKept = useRef<string | null>(null);
  useEffect(() => {
    if (inBook) fetchSession().then((got) => got.ok && setSession(got.value));
  }, [inBook]);
  const jobs = JSON.stringify(plan.jobs);
  const put = () => {
    if (request === null) return;
    lastKept.current = jobs;
    const madeUtc = utcText(Math.floor(Date.now() / MINUTE_MS) * MINUTE_MS);
    // Documents of the book are JSON: what is undefined in the question is not there.
    const plain = (value: unknown) => JSON.parse(JSON.stringify(value)) as Readonly<Record<string, unknown>>;
    keep({ name: "Crew plan", madeUtc, request: plain(request), answer: plain(plan) });
    onKept();
  };
  useEffect(() => {
    if (inBook && final && lastKept.current !== null && lastKept.current !== jobs) put();
  }, [inBook, final, jobs]);
  if (!mayEdit(session)) return null;
  const changed = inBook && lastKept.current !== jobs;
  return (
    <div class="crew-kept">
      {!inBook || changed ? (
        <button type="button" class="aid" onClick={put}>
          {inBook ? "Put this plan into the book too" : "Put the plan into the book, with a calendar address"}
        </button>
      ) : null}
      {inBook ? (
        <>
          <p role="status">
            {waiting !== null
              ? WAITING[waiting]
              : entry === null
                ? "In the book of the server."
                : `In the book of the server, version ${entry.revision}. Calendars take in each new version.`}
          </p>
          <SubscriptionField
            label="Calendar subscription: this plan, in your calendar program"
            path={`api/book/crew-plans/${planId}/calendar.ics`}
            reads="this plan"
            session={session}
          />
        </>
      ) : null}
    </div>
  );
}
