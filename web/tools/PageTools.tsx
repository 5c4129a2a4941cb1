import type { Dispatch } from "../app/use-model.ts";
import { useOpenWithRoom } from "../fold/use-room.ts";
import { MannerSwitch } from "../format/MannerSwitch.tsx";
import { CopyLink } from "../link/CopyLink.tsx";
import { PrintButton } from "../print/PrintButton.tsx";
import type { State } from "../state/state.ts";
import { ThemeSwitch } from "../theme/ThemeSwitch.tsx";
import "./tools.css";

/** Units, light, link and print. On a phone folded away, so that the answer begins higher up. */
export function PageTools({ state, dispatch }: { readonly state: State; readonly dispatch: Dispatch }) {
  const [open, setOpen] = useOpenWithRoom();
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
