import { useEffect, useState } from "preact/hooks";
import { deviceKeeps, theOutbox } from "./the-outbox.ts";
import { waitsWords } from "./waits-words.ts";

/** Under the board, whether or not the book is open: what was kept without a signal and is still to be sent. */
export function WaitingLine() {
  const outbox = theOutbox();
  const [state, setState] = useState(outbox.state);
  useEffect(() => {
    setState(outbox.state());
    const stop = outbox.listen(setState);
    return () => {
      stop();
    };
  }, []);
  const words = waitsWords(state, deviceKeeps());
  return (
    <p class="waits" role="status">
      {words === null ? "" : `The book: ${words.replace("a look below", "a look in the book")}`}
    </p>
  );
}
