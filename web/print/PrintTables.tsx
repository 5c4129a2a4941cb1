import { BoardTable } from "../board/BoardTable.tsx";
import { CourseTable } from "../course/CourseTable.tsx";
import type { CourseInput } from "../course/course-picture.ts";
import { courseSentence } from "../course/course-sentence.ts";
import { swathBands } from "../course/swath-bands.ts";
import type { Manner } from "../format/manner.ts";
import { unitsKept } from "../format/words.ts";
import type { Choice } from "../state/choice.ts";
import type { Picture } from "../state/state.ts";
import { usePaper } from "./use-paper.ts";

export interface PrintTablesProps {
  readonly picture: Picture;
  readonly choice: Choice | null;
  readonly manner: Manner;
}

/** The last sheets: the whole board and the course of the row that is looked at, in numbers. Made only for paper. */
export function PrintTables({ picture, choice, manner }: PrintTablesProps) {
  const paper = usePaper();
  const { answer, course, request, source } = picture;
  if (!paper) return null;
  const shown = choice !== null && course?.optionId === choice.option.id ? course.course : null;
  const input: CourseInput | null = shown &&
    choice && {
      course: shown,
      option: choice.option,
      route: choice.route,
      routes: swathBands(request),
      manner,
      series: source.series,
      initialMoistureWb: request.swath.initialMoistureWb,
      odds: shown.odds?.moistureWb,
    };
  return (
    <section class="print-only print-tables">
      <header class="print-lead">
        <h2>Table of the board</h2>
      </header>
      <BoardTable answer={answer} manner={manner} brief />
      {input && (
        <>
          <header class="print-lead">
            <h2>Table of the course</h2>
            <p>{unitsKept(courseSentence(input).sentence)}</p>
          </header>
          <CourseTable brief input={input} />
        </>
      )}
    </section>
  );
}
