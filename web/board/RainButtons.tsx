import { placeAt } from "./place-at.ts";
import { rainSpans, thumbSpan } from "./rain-spans.ts";
import { RAIN_STOP, stopId } from "./stops.ts";
import type { BoardPicture } from "./to-board.ts";

/** The rain along the top, a day a button, or two where a day is narrow, and the hatched hours: each is told like a window. */
export function RainButtons({ picture, stop }: { readonly picture: BoardPicture; readonly stop: boolean }) {
  const { header, scale, days, missing, rainSentence } = picture;
  const top = header.axisY;
  return (
    <li class="board-buttons">
      <button
        type="button"
        class="rain-button"
        style={placeAt(0, top - 4, scale.x0 - 2, header.footY - top + 2)}
        tabIndex={stop ? 0 : -1}
        aria-label={rainSentence}
        data-at={RAIN_STOP}
        data-stop={RAIN_STOP}
      />
      {rainSpans(days).map(({ key, x0, x1, sentence }) => (
        <button
          key={key}
          type="button"
          class="rain-button"
          style={placeAt(x0, 0, x1 - x0, header.footY - 2)}
          tabIndex={-1}
          aria-label={`Rain, ${sentence}`}
          data-at={stopId.rain(key)}
        />
      ))}
      {missing.map(({ x0, x1, fromMs, sentence }) => {
        const at = thumbSpan(x0, x1, days);
        const id = stopId.missing(fromMs, sentence);
        return (
          <button
            key={id}
            type="button"
            class="rain-button missing"
            style={placeAt(at.x0, top, at.x1 - at.x0, header.rainPx)}
            tabIndex={-1}
            aria-label={sentence}
            data-at={id}
          />
        );
      })}
    </li>
  );
}
