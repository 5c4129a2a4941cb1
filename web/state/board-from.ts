import type { Picture } from "./state.ts";

/** The moment that a picture's board is asked at: now, or the last reading that counts; null = from the weather's first hour on. */
export function boardNowUtc({ request, answer }: Pick<Picture, "request" | "answer">): string | null {
  return answer.readings?.fromUtc ?? request.nowUtc ?? null;
}

/** The first moment that a picture's board looks at. */
export function boardFromUtc(picture: Pick<Picture, "request" | "answer" | "source">): string {
  const { source, answer } = picture;
  return boardNowUtc(picture) ?? source.series.hours.startUtc[0] ?? answer.usableUntilUtc;
}
