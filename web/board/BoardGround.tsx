import type { BoardPicture } from "./to-board.ts";

/** What lies behind the rows: days and nights, rain hanging from the top, days in words. */
export function BoardGround({
  picture,
  doubted,
}: {
  readonly picture: BoardPicture;
  /** The forecast is old: its chances carry a question mark. */
  readonly doubted: boolean;
}) {
  const { scale, header, heightPx, days, nights, missing, rain, narrow } = picture;
  // In one text with its words: of two texts the outline of one lies over the other.
  const mark = doubted ? "?" : "";
  return (
    <g>
      <pattern
        id="board-hatch"
        width={7}
        height={7}
        patternUnits="userSpaceOnUse"
        patternTransform="rotate(45)"
      >
        <rect class="hatch-line" width={1.6} height={7} />
      </pattern>
      <rect class="board-day" x={scale.x0} y={0} width={scale.x1 - scale.x0} height={heightPx} />
      {nights.map(({ x0, x1 }) => (
        <rect key={x0} class="board-night" x={x0} y={0} width={x1 - x0} height={heightPx} />
      ))}
      {days.slice(1).map(({ x0, dayKey }) => (
        <path key={dayKey} class="board-midnight" d={`M${x0} ${header.axisY}V${heightPx}`} />
      ))}
      {missing.map(({ x0, x1, sentence, stripOnly }) => (
        <rect
          key={sentence}
          x={x0}
          y={header.axisY}
          width={x1 - x0}
          height={(stripOnly ? header.footY : heightPx) - header.axisY}
          fill="url(#board-hatch)"
        />
      ))}
      <text
        class="rain-title"
        x={narrow ? 10 : scale.x0 - 10}
        y={header.axisY + 16}
        text-anchor={narrow ? "start" : "end"}
      >
        {picture.rainTitle}
      </text>
      {picture.rainOdds && (
        <text
          class="rain-title"
          x={narrow ? 10 : scale.x0 - 10}
          y={header.oddsY}
          text-anchor={narrow ? "start" : "end"}
        >
          {`${picture.rainOdds.title}${mark}`}
        </text>
      )}
      {rain.map(({ x0, x1, lengthPx }) => (
        <rect
          key={x0}
          class="rain-bar"
          x={x0 + 0.5}
          y={header.axisY}
          width={Math.max(1, x1 - x0 - 1)}
          height={lengthPx}
        />
      ))}
      <path class="board-axis" d={`M${scale.x0} ${header.axisY}H${scale.x1}`} />
      {days.map(({ dayKey, x0, x1, label, date, rainWords, wet, oddsWords, mayRain }) => (
        <g key={dayKey} text-anchor="middle">
          <text class="day-name" x={(x0 + x1) / 2} y={header.dayY}>
            {label}
          </text>
          {date !== "" && (
            <text class="day-date" x={(x0 + x1) / 2} y={header.dateY}>
              {date}
            </text>
          )}
          <text class={wet ? "rain-words wet" : "rain-words"} x={(x0 + x1) / 2} y={header.wordsY}>
            {rainWords}
          </text>
          {oddsWords !== "" && (
            <text class={mayRain ? "rain-words wet" : "rain-words"} x={(x0 + x1) / 2} y={header.oddsY}>
              {`${oddsWords}${picture.rainUnit === null ? mark : ""}`}
            </text>
          )}
        </g>
      ))}
    </g>
  );
}
