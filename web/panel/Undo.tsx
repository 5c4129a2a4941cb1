import { useEffect, useState } from "preact/hooks";
import type { Dispatch } from "../app/use-model.ts";
import type { Edit } from "../state/state.ts";
import { changeWords } from "./change-words.ts";
import "./undo.css";

/** In a field of text the browser takes back letters itself. */
function takesText(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target instanceof HTMLInputElement) return !["radio", "checkbox", "button"].includes(target.type);
  return target instanceof HTMLTextAreaElement || target.isContentEditable;
}

/** Takes back the last change, by its button or by Ctrl+Z anywhere but in a field of text. */
export function Undo({ past, dispatch }: { readonly past: readonly Edit[]; readonly dispatch: Dispatch }) {
  const last = past.at(-1);
  const [said, setSaid] = useState("");
  const undo = () => {
    if (last === undefined) return;
    setSaid(`Undone: ${changeWords(last.what)}.`);
    dispatch({ kind: "undo" });
  };
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      const wanted = (event.ctrlKey || event.metaKey) && !event.shiftKey && !event.altKey;
      if (!wanted || event.key.toLowerCase() !== "z" || takesText(event.target)) return;
      event.preventDefault();
      undo();
    };
    document.addEventListener("keydown", onKey);
    return () => document.removeEventListener("keydown", onKey);
  });
  return (
    <p class="undo">
      {/* Stays where it is when nothing is left, so that the keyboard's place is not lost. */}
      <button type="button" aria-disabled={last === undefined ? "true" : undefined} onClick={undo}>
        {last === undefined ? "Nothing to undo" : `Undo: ${changeWords(last.what)}`}
      </button>
      <span class="hidden" role="status">
        {said}
      </span>
    </p>
  );
}
