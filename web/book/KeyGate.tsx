import { useEffect, useState } from "preact/hooks";
import { later } from "../fold/later.tsx";
import { isKeyNeeded, onKey } from "./key-needed.ts";

const Asked = later(
  () => import("./part.ts").then((module) => module.SignIn),
  <p class="no-course">This server asks for a key ...</p>,
);

/** Nothing, until the server asks for a key: then the field for it, over everything else. */
export function KeyGate({ onSignedIn }: { readonly onSignedIn: () => void }) {
  const [needed, setNeeded] = useState(isKeyNeeded);
  useEffect(() => {
    const look = () => setNeeded(isKeyNeeded());
    // It may have been said before anyone listened.
    look();
    return onKey(look);
  }, []);
  return needed ? <Asked onSignedIn={onSignedIn} /> : null;
}
