import type { CrewPlanRequest } from "../../model/crew/index.ts";
import type { WeatherSeries } from "../../model/weather/index.ts";
import { newId } from "../book/new-id.ts";
import type { Manner } from "../format/manner.ts";
import { CrewFields } from "./CrewFields.tsx";
import { type CrewDraft, draftOfFile } from "./crew-draft.ts";
import { draftFaulty, draftIssues } from "./draft-issues.ts";
import { PlaceWeather } from "./PlaceWeather.tsx";
import { TakeInFile } from "./TakeInFile.tsx";
import "./crew-edit.css";

interface EditProps {
  readonly draft: CrewDraft;
  readonly series: WeatherSeries;
  readonly manner: Manner;
  readonly nowUtc: string;
  readonly busy: boolean;
  readonly onDraft: (draft: CrewDraft) => void;
  readonly onPlan: (draft: CrewDraft) => void;
  readonly onDemo: () => void;
}

/** The plan that customers and drivers know of. */
function Promised({ draft, onDraft }: Pick<EditProps, "draft" | "onDraft">) {
  const { promised } = draft;
  if (promised === undefined || promised.jobs.length === 0) return null;
  // Its visits are forgotten, its number is not: calendars that have them take in what comes after.
  const forgotten = { ...draft, promised: { jobs: [], revision: promised.revision } };
  return (
    <p>
      A plan was given out: later ones hold to it where they can, and say what moves.{" "}
      <button type="button" class="aid" onClick={() => onDraft(forgotten)}>
        Forget it
      </button>
    </p>
  );
}

/** Everything that can be changed of the crew, by hand or from a file; the plan is made when it is asked for. */
export function EditCrew({ draft, series, manner, nowUtc, busy, onDraft, onPlan, onDemo }: EditProps) {
  const issues = draftIssues(draft, series);
  const faulty = draftFaulty(draft, issues);
  const takeIn = (request: CrewPlanRequest) => {
    const taken = draftOfFile(request, newId());
    onDraft(taken);
    onPlan(taken);
  };
  // What stands at no field is said here.
  const elsewhere = issues.filter(({ path }) => !/^(fields|machines|people)\[/.test(path));
  return (
    <>
      <TakeInFile onRequest={takeIn} />
      <PlaceWeather draft={draft} manner={manner} spot={series.site} onDraft={onDraft} />
      <Promised draft={draft} onDraft={onDraft} />
      <CrewFields
        draft={draft}
        issues={issues}
        manner={manner}
        spot={series.site}
        nowUtc={nowUtc}
        onDraft={onDraft}
      />
      {elsewhere.map(({ path, message }) => (
        <p key={path} class="field-error">
          {message}
        </p>
      ))}
      {faulty ? <p>Some of it is wrong: see what stands under the fields.</p> : null}
      <div class="crew-buttons">
        <button type="button" class="aid" disabled={busy || faulty} onClick={() => onPlan(draft)}>
          Plan with these
        </button>
        <button type="button" class="aid" onClick={onDemo}>
          Back to the invented crew
        </button>
      </div>
    </>
  );
}
