import { useEffect, useMemo, useState } from "preact/hooks";
import type { CrewJobAnswer } from "../../model/crew/index.ts";
import type { FoldsProps } from "../app/Folds.tsx";
import { dayClockText, shortDayClockText } from "../format/farm-time.ts";
import type { Manner } from "../format/manner.ts";
import { useWidth } from "../format/use-width.ts";
import { CrewChart, jobKey } from "./CrewChart.tsx";
import { chanceWords } from "./chance-words.ts";
import { toCrewChart } from "./crew-chart.ts";
import { crewSentence, gapSentence } from "./crew-sentences.ts";
import { demoCrew, withInventedMembers } from "./demo-crew.ts";
import { useCrew } from "./use-crew.ts";
import "./crew.css";

export type CrewPlanProps = Pick<FoldsProps, "picture" | "manner">;

const NONE: ReadonlySet<string> = new Set();

/** The contractor's plan: many fields, few machines. Opens on an invented crew in the weather of the page. */
export function CrewPlan({ picture, manner: pageManner }: CrewPlanProps) {
  const crew = useCrew();
  const { ref, widthPx } = useWidth<HTMLDivElement>();
  const [moved, setMoved] = useState<readonly CrewJobAnswer[] | null>(null);
  const [chosen, setChosen] = useState<string | null>(null);
  const source = picture?.source ?? null;
  const series = useMemo(() => {
    if (source === null) return null;
    return source.kind === "sample" ? withInventedMembers(source.series) : source.series;
  }, [source]);
  useEffect(() => {
    if (series === null) return;
    const asked = demoCrew(series);
    setMoved(null);
    crew.plan(asked);
  }, [series]);
  const { answer, busy, progress, issues, checked } = crew;
  const manner: Manner = answer === null ? pageManner : { ...pageManner, zone: answer.timeZone };
  const jobs = moved ?? answer?.jobs ?? [];
  const chart = useMemo(
    () =>
      answer === null || series === null || widthPx === 0
        ? null
        : toCrewChart(answer, jobs, series, Math.max(160, widthPx - (widthPx > 620 ? 170 : 104))),
    [answer, jobs, series, widthPx],
  );
  const sentence = answer === null ? "" : crewSentence(answer);
  const wrong = new Set((checked?.faults ?? []).map(({ fieldId, op }) => `${fieldId}/${op}`));
  const home = (fieldId: string) => {
    const last = jobs.filter((job) => job.fieldId === fieldId).at(-1);
    if (last === undefined) return "left standing";
    const told = (checked?.replay ?? answer?.replay)?.find((one) => one.fieldId === fieldId);
    const chance = told?.chanceDry ?? null;
    const when = shortDayClockText(last.endUtc, manner);
    return chance === null ? when : `${when}, ${chanceWords(chance)}`;
  };
  return (
    <div class="crew" ref={ref}>
      <p class="crew-note">
        Invented demonstration crew: fields, customers, machines and people are made up
        {source?.kind === "sample" ? ", and so is the weather" : "; the weather is that of the page"}.
      </p>
      <div aria-live="polite">
        {answer === null ? (
          <p>
            {busy === null
              ? "No plan yet: it needs weather first."
              : "Working out when each field can be cut and taken ..."}
          </p>
        ) : (
          <>
            <p class="crew-answer">{sentence}</p>
            <p>{gapSentence(answer, manner)}</p>
          </>
        )}
        {issues.map(({ path, message }) => (
          <p key={path} role="alert">
            {message}
          </p>
        ))}
      </div>
      {chart === null || answer === null ? null : (
        <CrewChart
          chart={chart}
          manner={manner}
          sentence={sentence}
          names={answer.names}
          chosen={chosen}
          wrong={wrong}
          held={NONE}
          home={home}
          slotMs={answer.slotMin * 60_000}
          onChoose={setChosen}
          onMove={(job, byMs) => {
            const shift = (utc: string) =>
              new Date(Date.parse(utc) + byMs).toISOString().replace(".000Z", "Z");
            const next = jobs.map((one) =>
              jobKey(one) === jobKey(job)
                ? { ...job, startUtc: shift(job.startUtc), endUtc: shift(job.endUtc) }
                : one,
            );
            setMoved(next);
            crew.check(next);
          }}
        />
      )}
      {progress?.stage === "better" && answer !== null ? (
        <p>Better plan found after {Math.round(progress.elapsedS)} s.</p>
      ) : null}
      {answer === null ? null : (
        <p class="crew-note">
          Plan from {dayClockText(answer.nowUtc, manner)}. Pale: weather and ground allow the work. Framed:
          the window that the mowing opens. Blue: rain.
        </p>
      )}
    </div>
  );
}
