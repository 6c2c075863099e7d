/*
 * The service worker: keeps the built client, and nothing else, so that Tightrow opens without a signal.
 * Governing rule: it never interrupts. A new version waits until somebody asks for it; boards and the API are none of
 * its business (they live in IndexedDB and on the server). `SHELL` and `VERSION` are put in front when it is built.
 */

declare const SHELL: readonly string[];
declare const VERSION: string;

/** The part of the worker's global scope used here; the DOM and worker libraries cannot be loaded together. */
interface WorkerScope {
  readonly location: Location;
  readonly clients: { claim(): Promise<void> };
  skipWaiting(): Promise<void>;
  addEventListener(type: "install" | "activate", listener: (event: Lasting) => void): void;
  addEventListener(type: "message", listener: (event: MessageEvent) => void): void;
  addEventListener(type: "fetch", listener: (event: Fetching) => void): void;
}
interface Lasting extends Event {
  waitUntil(work: Promise<unknown>): void;
}
interface Fetching extends Event {
  readonly request: Request;
  respondWith(response: Promise<Response>): void;
}

const worker = self as unknown as WorkerScope;
const PREFIX = "tightrow-shell-";
const CACHE = PREFIX + VERSION;
const kept = new Set(SHELL);

/** Hashed files may come from the browser's own cache, the others must be fresh. All or nothing. */
const keepShell = async () => {
  const cache = await caches.open(CACHE);
  await cache.addAll(
    SHELL.map((path) => new Request(path, { cache: path.startsWith("/assets/") ? "default" : "reload" })),
  );
};

/** The version before stays too: a page still open may ask for a part of it that it has not loaded yet. */
const dropOldShells = async () => {
  const shells = (await caches.keys()).filter((name) => name.startsWith(PREFIX) && name !== CACHE);
  await Promise.all(shells.slice(0, -1).map((name) => caches.delete(name)));
};

const answer = async (request: Request, path: string): Promise<Response> => {
  const cache = await caches.open(CACHE);
  return (await cache.match(path)) ?? (await caches.match(path)) ?? fetch(request);
};

worker.addEventListener("install", (event) => event.waitUntil(keepShell()));

worker.addEventListener("activate", (event) =>
  event.waitUntil(Promise.all([dropOldShells(), worker.clients.claim()])),
);

worker.addEventListener("message", (event) => {
  if (event.data === "take over") void worker.skipWaiting();
});

worker.addEventListener("fetch", (event) => {
  const { request } = event;
  const url = new URL(request.url);
  if (request.method !== "GET" || url.origin !== worker.location.origin) return;
  // Routes live in the fragment, so the one page is at "/".
  if (request.mode === "navigate" && url.pathname === "/") event.respondWith(answer(request, "/"));
  else if (kept.has(url.pathname) || url.pathname.startsWith("/assets/"))
    event.respondWith(answer(request, url.pathname));
});
