/** Lets the page open without a network the next time. Only a built page has the file for it. */
export function registerOffline(): void {
  if (!import.meta.env.PROD || !("serviceWorker" in navigator)) return;
  // After the first picture: what is kept for later must not hold up what is wanted now.
  const register = () => {
    navigator.serviceWorker
      .register(new URL("sw.js", document.baseURI), { updateViaCache: "none" })
      .catch(() => {
        // Denied by the browser, or no secure address: the page works as before, with a network.
      });
  };
  if (document.readyState === "complete") register();
  else addEventListener("load", register, { once: true });
}
