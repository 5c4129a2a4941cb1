import { type CrewPlanAnswer, type CrewPlanRequest, isOfFeed } from "../../model/crew/index.ts";
import { CrewChart, type CrewChartProps } from "./CrewChart.tsx";
import { CrewLegend } from "./CrewLegend.tsx";
import { whoseRain } from "./crew-rain.ts";
import { PANEL_ID } from "./JobPanel.tsx";
import { jobKey } from "./job-key.ts";
import { WorkLine } from "./WorkLine.tsx";

interface PictureProps extends Omit<CrewChartProps, "names" | "nowUtc" | "slotMs"> {
  readonly plan: CrewPlanAnswer;
  /** "rain in 2 of 5 forecasts then", of the chosen work; null = nothing is to be said of rain. */
  readonly rain: string | null;
  /** The question that the plan answers; null = it is not known. */
  readonly request: CrewPlanRequest | null;
}

/** Goes to where the chosen work can be changed. */
function toPanel() {
  const panel = document.getElementById(PANEL_ID);
  panel?.scrollIntoView({ block: "start" });
  panel?.focus({ preventScroll: true });
}

/** The time chart, in its sight the chosen work in a line, and the key. */
export function CrewPicture({ plan, request, rain, ...props }: PictureProps) {
  const { chosen, held, wrong, manner } = props;
  const job = plan.jobs.find((one) => jobKey(one) === chosen);
  const isCautioned = plan.cautions.some(
    (caution) => isOfFeed(caution) && job !== undefined && jobKey(caution) === chosen,
  );
  const more = [
    ...(rain === null ? [] : [`Mind: ${rain}.`]),
    ...(job !== undefined && (wrong.has(jobKey(job)) || isCautioned)
      ? ["Cautions stand with it below."]
      : []),
  ];
  return (
    <>
      <div>
        <CrewChart {...props} names={plan.names} nowUtc={plan.nowUtc} slotMs={plan.slotMin * 60_000} />
        {job === undefined ? null : (
          <div class="crew-chosen">
            <div>
              <WorkLine job={job} plan={plan} held={held} manner={manner} />
              {more.length === 0 ? null : <p>{more.join(" ")}</p>}
            </div>
            <button type="button" class="aid" onClick={toPanel}>
              Change
            </button>
          </div>
        )}
      </div>
      <CrewLegend rain={whoseRain(request?.sites ?? {})} />
    </>
  );
}
