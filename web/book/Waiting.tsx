import { useEffect, useState } from "preact/hooks";
import { later } from "../fold/later.tsx";
import { WAITING_EVENT, waitingMarked } from "./waiting-mark.ts";

const Line = later(() => import("./part.ts").then((module) => module.WaitingLine), <p class="waits" />);

/** Nothing, until changes of the book wait: then their line, whose script also sends them. */
export function Waiting() {
  const [needed, setNeeded] = useState(() => waitingMarked() > 0);
  useEffect(() => {
    const look = () => setNeeded((before) => before || waitingMarked() > 0);
    addEventListener(WAITING_EVENT, look);
    return () => removeEventListener(WAITING_EVENT, look);
  }, []);
  return needed ? <Line /> : null;
}
