import { useEffect, useState } from "preact/hooks";

/** Below this the board should begin in the first view: what is not needed at once is one tap away. */
const SHORT = "(max-width: 720px)";

/** Whether a fold is open: by itself where there is room for it, else as the reader has it. */
export function useOpenWithRoom(): readonly [boolean, (open: boolean) => void] {
  const [open, setOpen] = useState(() => !matchMedia(SHORT).matches);
  useEffect(() => {
    const short = matchMedia(SHORT);
    const follow = () => setOpen(!short.matches);
    short.addEventListener("change", follow);
    return () => short.removeEventListener("change", follow);
  }, []);
  return [open, setOpen];
}
