import { type ToldWorker, wayOf } from "./way.ts";

/** Written in by the build: the files of this version, those of the first view, and a name that changes with any of them. */
declare const SHELL: {
  readonly version: string;
  readonly files: readonly string[];
  readonly first: readonly string[];
};

const worker = self as unknown as ServiceWorkerGlobalScope;
const SHELL_CACHE = `shell-${SHELL.version}`;
const KEPT_CACHE = "kept";
const PAGE = "index.html";
const SAMPLES = "api/samples";
/** Where something is kept, a network that hangs is waited for this long. */
const PATIENCE_MS = 4000;
const files = new Set(SHELL.files);
const scope = worker.registration.scope;

/** A file of the build is named by its content: what the browser or an earlier version has of it is as good as new. */
const isNamedByContent = (file: string) => file.startsWith("assets/");

/** Keeps files of this version: all of them or none. What the device has already is not fetched again. */
async function keep(shell: Cache, wanted: readonly string[]): Promise<void> {
  const fresh: Request[] = [];
  for (const file of wanted) {
    const { href } = new URL(file, scope);
    const had = isNamedByContent(file) ? await caches.match(href) : undefined;
    if (had) await shell.put(href, had);
    else fresh.push(new Request(href, { cache: isNamedByContent(file) ? "default" : "no-cache" }));
  }
  await shell.addAll(fresh);
}

/** Whether another version is kept on this device. */
async function isUpdate(): Promise<boolean> {
  return (await caches.keys()).some((name) => name.startsWith("shell-") && name !== SHELL_CACHE);
}

async function install(): Promise<void> {
  const update = await isUpdate();
  const shell = await caches.open(SHELL_CACHE);
  // A first visit waits for what it shows, and the rest comes when there is time; a version with a file missing is never
  // taken in the place of another, which may have had it.
  await keep(shell, update ? SHELL.files : SHELL.first);
  const kept = await caches.open(KEPT_CACHE);
  // The samples may lack for now: they are asked for again with the page.
  await kept.add(new URL(SAMPLES, scope).href).catch(() => {});
}

/** Files of folds are fetched so many at a time: in the field an answer takes long, however little it brings. */
const AT_A_TIME = 4;

/** The files of folds that nobody opened yet; what cannot be had now is asked for at the next visit. */
async function keepRest(): Promise<void> {
  const shell = await caches.open(SHELL_CACHE);
  const rest = SHELL.files.values();
  const keepOn = async () => {
    for (const file of rest)
      if (!(await shell.match(new URL(file, scope).href))) await keep(shell, [file]).catch(() => {});
  };
  await Promise.all(Array.from({ length: AT_A_TIME }, keepOn));
}

async function activate(): Promise<void> {
  const names = await caches.keys();
  const old = names.filter((name) => name.startsWith("shell-") && name !== SHELL_CACHE);
  await Promise.all(old.map((name) => caches.delete(name)));
  await worker.clients.claim();
}

/** A file of this version's shell; files named by their content may also be of a version that is just coming in. */
async function fromShell(file: string): Promise<Response> {
  const url = new URL(file, scope).href;
  const shell = await caches.open(SHELL_CACHE);
  const found = (await shell.match(url)) ?? (await caches.match(url));
  if (found) return found;
  const response = await fetch(url);
  // Fetched at its first use, and there from then on.
  if (response.ok && files.has(url.slice(scope.length))) await shell.put(url, response.clone());
  return response;
}

/** The page of the version that waits: all its files are kept, since it would not wait otherwise. */
async function nextPage(): Promise<Response | undefined> {
  const url = new URL(PAGE, scope).href;
  const names = await caches.keys();
  const others = names.filter((name) => name.startsWith("shell-") && name !== SHELL_CACHE);
  // The last one made is the one that waits; one before it may be left from a version that never came in.
  for (const name of others.reverse()) {
    const found = await (await caches.open(name)).match(url);
    if (found) return found;
  }
  return undefined;
}

/**
 * The page. A newer version waits until no page of the old one is open, so that no page mixes two. Where the only page
 * is the one being opened again, it is opened in the newer version, whose worker takes over as soon as this one rests.
 */
async function page(): Promise<Response> {
  const waiting = worker.registration.waiting;
  if (waiting) {
    const open = await worker.clients.matchAll({ type: "window" });
    const next = open.length < 2 ? await nextPage() : undefined;
    if (next) {
      waiting.postMessage("take-over");
      return next;
    }
  }
  return fromShell(PAGE);
}

function later(ms: number): Promise<null> {
  return new Promise((resolve) => setTimeout(() => resolve(null), ms));
}

async function networkElseKept(request: Request): Promise<Response> {
  const kept = await caches.open(KEPT_CACHE);
  const before = await kept.match(request, { ignoreSearch: true });
  const now = fetch(request).then(async (response) => {
    if (response.ok) await kept.put(request, response.clone());
    return response;
  });
  if (before === undefined) return now;
  const first = await Promise.race([now.catch(() => null), later(PATIENCE_MS)]);
  return first?.ok ? first : before;
}

worker.addEventListener("install", (event) => event.waitUntil(install()));
worker.addEventListener("activate", (event) => event.waitUntil(activate()));
worker.addEventListener("message", (event) => {
  const told: ToldWorker = event.data;
  if (told === "take-over") void worker.skipWaiting();
  if (told === "keep-rest") event.waitUntil(keepRest());
});
worker.addEventListener("fetch", (event) => {
  const { request } = event;
  switch (wayOf(request, scope, files)) {
    case "page":
      return event.respondWith(page());
    case "file":
      return event.respondWith(fromShell(request.url.replace(/[?#].*$/, "")));
    case "kept":
      return event.respondWith(networkElseKept(request));
    case "network":
      return;
  }
});
