/** A reader who takes nothing for so long is gone, ms. */
const STALLED_MS = 60_000;

/**
 * Text that is made piece by piece as a body that is sent piece by piece, as fast as it is taken. The first piece is
 * waited for, so that what cannot begin is an error and no broken file; what breaks later breaks the connection off.
 */
export async function streamText(
  pieces: AsyncIterable<string>,
  stalledMs = STALLED_MS,
): Promise<ReadableStream<Uint8Array>> {
  const source = pieces[Symbol.asyncIterator]();
  const encoder = new TextEncoder();
  let next = await source.next();
  let timer: NodeJS.Timeout | undefined;
  const end = async () => {
    clearTimeout(timer);
    await source.return?.();
  };
  return new ReadableStream<Uint8Array>(
    {
      pull: async (controller) => {
        clearTimeout(timer);
        if (next.done) return controller.close();
        controller.enqueue(encoder.encode(next.value));
        next = await source.next();
        timer = setTimeout(() => {
          controller.error(new Error("the reader took nothing for too long"));
          void end();
        }, stalledMs).unref();
      },
      cancel: end,
    },
    { highWaterMark: 1 },
  );
}
