import { rainSpans, thumbSpan } from "./rain-spans.ts";
import { type Telling, tells } from "./telling.ts";
import type { BoardPicture } from "./to-board.ts";

export const RAIN_STOP = "rain";

const px = (n: number) => `${Math.round(n * 10) / 10}px`;

/** The rain along the top, a day a button, or two where a day is narrow, and the hatched hours: each is told like a window. */
export function RainButtons({
  picture,
  stop,
  onTell,
  onKeyDown,
  onHour,
}: {
  readonly picture: BoardPicture;
  readonly stop: boolean;
  readonly onTell: (telling: Telling | null) => void;
  readonly onKeyDown: (event: KeyboardEvent) => void;
  readonly onHour: (ms: number | null) => void;
}) {
  const { header, scale, days, missing, rainSentence } = picture;
  const top = header.axisY;
  const all: Telling = { sentence: rainSentence, more: [] };
  return (
    <li class="board-buttons">
      <button
        type="button"
        class="rain-button"
        style={{ top: px(top - 4), left: "0px", width: px(scale.x0 - 2), height: px(header.footY - top + 2) }}
        tabIndex={stop ? 0 : -1}
        aria-label={rainSentence}
        data-stop={RAIN_STOP}
        onKeyDown={onKeyDown}
        onClick={() => onTell(all)}
        {...tells(all, onTell)}
      />
      {rainSpans(days).map(({ key, x0, x1, sentence }) => {
        const telling: Telling = { sentence: `Rain, ${sentence}`, more: [] };
        return (
          <button
            key={key}
            type="button"
            class="rain-button"
            style={{ top: "0px", left: px(x0), width: px(x1 - x0), height: px(header.footY - 2) }}
            tabIndex={-1}
            aria-label={telling.sentence}
            onKeyDown={onKeyDown}
            onClick={() => onTell(telling)}
            {...tells(telling, onTell)}
          />
        );
      })}
      {missing.map(({ x0, x1, fromMs, sentence }) => {
        const telling: Telling = { sentence, more: [] };
        const at = thumbSpan(x0, x1, days);
        return (
          <button
            key={`${fromMs} ${sentence}`}
            type="button"
            class="rain-button missing"
            style={{ top: px(top), left: px(at.x0), width: px(at.x1 - at.x0), height: px(header.rainPx) }}
            tabIndex={-1}
            aria-label={sentence}
            onKeyDown={onKeyDown}
            onClick={() => onTell(telling)}
            {...tells(telling, onTell)}
            onFocus={() => {
              onTell(telling);
              onHour(fromMs);
            }}
          />
        );
      })}
    </li>
  );
}
