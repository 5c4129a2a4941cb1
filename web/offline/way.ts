/** What a service worker is told: to come in now, or that there is time to fetch what nobody asked for yet. */
export type ToldWorker = "take-over" | "keep-rest";

/** How a request of the page is answered where there may be no network. */
export type Way =
  /** The page itself: from the shell of this version. */
  | "page"
  /** A file of the shell, of this version or of one that is coming in. */
  | "file"
  /** From the network, else as it was last given. */
  | "kept"
  /** Not for us: the browser does as if we were not there. */
  | "network";

export interface Asked {
  readonly method: string;
  readonly mode: string;
  readonly url: string;
}

/**
 * What is done with a request.
 *
 * @param scope address of the folder that the page lies in, ending in "/"
 * @param files the files of the shell, relative to it
 */
export function wayOf({ method, mode, url }: Asked, scope: string, files: ReadonlySet<string>): Way {
  // Files that are sent to be checked, and whatever else changes something, are never kept or answered from here.
  if (method !== "GET" || !url.startsWith(scope)) return "network";
  const path = url.slice(scope.length).replace(/[?#].*$/, "");
  if (mode === "navigate") return path === "" || path === "index.html" ? "page" : "network";
  // Its content names each of the build's files: one of another version is the same wherever it comes from.
  if (files.has(path) || path.startsWith("assets/")) return "file";
  return path === "api/samples" ? "kept" : "network";
}
