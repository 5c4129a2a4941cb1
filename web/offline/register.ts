import { whenRested } from "./rest.ts";
import type { ToldWorker } from "./way.ts";

/** Whoever asked the browser to save data gets the rest at its first use. */
function savesData(): boolean {
  const { connection } = navigator as Navigator & { readonly connection?: { readonly saveData?: boolean } };
  return connection?.saveData === true;
}

/** Has the parts that nobody opened yet fetched, once nothing else is going on. */
async function keepRest(): Promise<void> {
  const { active } = await navigator.serviceWorker.ready;
  await whenRested();
  active?.postMessage("keep-rest" satisfies ToldWorker);
}

/** Lets the page open without a network the next time. Only a built page has the file for it. */
export function registerOffline(): void {
  if (!import.meta.env.PROD || !("serviceWorker" in navigator)) return;
  // After the first picture: what is kept for later must not hold up what is wanted now.
  const register = () => {
    navigator.serviceWorker
      .register(new URL("sw.js", document.baseURI), { updateViaCache: "none" })
      .then(() => {
        if (!savesData()) void keepRest();
      })
      .catch(() => {
        // Denied by the browser, or no secure address: the page works as before, with a network.
      });
  };
  if (document.readyState === "complete") register();
  else addEventListener("load", register, { once: true });
}
