import { useLayoutEffect, useState } from "preact/hooks";

/** True from the moment the page is laid out for paper until it is printed. */
export function usePaper(): boolean {
  const [paper, setPaper] = useState(false);
  useLayoutEffect(() => {
    const before = () => setPaper(true);
    const after = () => setPaper(false);
    addEventListener("beforeprint", before);
    addEventListener("afterprint", after);
    return () => {
      removeEventListener("beforeprint", before);
      removeEventListener("afterprint", after);
    };
  }, []);
  return paper;
}
