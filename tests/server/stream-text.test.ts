import { expect, test } from "vitest";
import { streamText } from "../../server/stream-text.ts";

/** Pieces of text that say when they are let go. */
function source(pieces: readonly (string | Error)[]) {
  const seen = { given: 0, ended: false };
  async function* give() {
    try {
      for (const piece of pieces) {
        if (piece instanceof Error) throw piece;
        seen.given += 1;
        yield piece;
      }
    } finally {
      seen.ended = true;
    }
  }
  return { seen, pieces: give() };
}

test("all pieces come in order, made no faster than they are taken", async () => {
  const { seen, pieces } = source(["a", "ü", "b", "c", "d"]);
  const reader = (await streamText(pieces)).getReader();
  await reader.read();
  expect(seen.given).toBeLessThan(5);
  reader.releaseLock();
  const rest = source(["a", "ü", "b"]);
  expect(await new Response(await streamText(rest.pieces)).text()).toBe("aüb");
  expect(rest.seen.ended).toBe(true);
});

test("what cannot begin is an error; what breaks later breaks the body off", async () => {
  await expect(streamText(source([new Error("no book")]).pieces)).rejects.toThrow("no book");
  const { seen, pieces } = source(["a", "b", new Error("lost")]);
  await expect(new Response(await streamText(pieces)).text()).rejects.toThrow("lost");
  expect(seen.ended).toBe(true);
});

test("a reader who goes, or who takes nothing for too long, lets the source go", async () => {
  const gone = source(["a", "b", "c"]);
  await (await streamText(gone.pieces)).cancel();
  expect(gone.seen.ended).toBe(true);
  const stalled = source(["a", "b", "c"]);
  const body = await streamText(stalled.pieces, 5);
  await expect.poll(() => stalled.seen.ended).toBe(true);
  await expect(new Response(body).text()).rejects.toThrow("took nothing");
});
