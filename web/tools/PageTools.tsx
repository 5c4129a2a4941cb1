import { useEffect, useState } from "preact/hooks";
import type { Dispatch } from "../app/use-model.ts";
import { MannerSwitch } from "../format/MannerSwitch.tsx";
import { CopyLink } from "../link/CopyLink.tsx";
import { PrintButton } from "../print/PrintButton.tsx";
import type { State } from "../state/state.ts";
import { ThemeSwitch } from "../theme/ThemeSwitch.tsx";
import "./tools.css";

const SHORT = "(max-width: 720px)";

/** Units, light, link and print. On a phone folded away, so that the answer begins higher up. */
export function PageTools({ state, dispatch }: { readonly state: State; readonly dispatch: Dispatch }) {
  const [open, setOpen] = useState(() => !matchMedia(SHORT).matches);
  useEffect(() => {
    const short = matchMedia(SHORT);
    const follow = () => setOpen(!short.matches);
    short.addEventListener("change", follow);
    return () => short.removeEventListener("change", follow);
  }, []);
  const { units, theme } = state.preferences;
  return (
    <details
      class="page-tools"
      open={open}
      onToggle={(event) => setOpen((event.currentTarget as HTMLDetailsElement).open)}
    >
      <summary>Units, light, link, print</summary>
      <div>
        <MannerSwitch
          units={units}
          onUnits={(next) => dispatch({ kind: "preferences", change: { units: next } })}
        />
        <ThemeSwitch
          theme={theme}
          onTheme={(next) => dispatch({ kind: "preferences", change: { theme: next } })}
        />
        <CopyLink state={state} />
        <PrintButton />
      </div>
    </details>
  );
}
