import type { Manner } from "../format/manner.ts";
import { peoplesWords } from "../format/people-words.ts";
import { sentenceCase } from "../format/words.ts";
import { markSentences, sourceSentence } from "./provenance.ts";
import type { WeatherSource } from "./source.ts";
import "./weather-line.css";

/** Said elsewhere: the age in the answer, the estimates as counts. */
const COUNTED: ReadonlySet<string> = new Set(["cloud-estimate", "coarse-rain"]);

export interface WeatherLineProps {
  readonly source: WeatherSource;
  readonly nowMs: number;
  readonly manner: Manner;
}

/** Beside the board, on paper too: whose weather it is, how old, what of it was estimated, and who is to be credited. */
export function WeatherLine({ source, nowMs, manner }: WeatherLineProps) {
  const { series } = source;
  const marks = markSentences(series, manner);
  const notes = source.kind === "forecast" ? source.notes.filter(({ code }) => !COUNTED.has(code)) : [];
  const credits = series.attribution ?? [];
  if (source.kind === "sample") return null;
  return (
    <div class="weather-line">
      <p>
        {source.kind === "forecast"
          ? `${sourceSentence(series, nowMs, manner)} `
          : `Your file ${source.name}. `}
        {marks.length > 0 ? `${sentenceCase(marks.join("; "))}. ` : ""}
        {credits.map(({ text, url }, i) => (
          <span key={text}>
            {i > 0 ? "; " : ""}
            {url ? (
              <a href={url} target="_blank" rel="noreferrer">
                {text}
              </a>
            ) : (
              text
            )}
          </span>
        ))}
      </p>
      {notes.length > 0 ? (
        <ul>
          {notes.map(({ code, text }) => (
            <li key={text} class={code === "stale" ? "grave" : undefined}>
              {peoplesWords(text, manner)}
            </li>
          ))}
        </ul>
      ) : null}
    </div>
  );
}
