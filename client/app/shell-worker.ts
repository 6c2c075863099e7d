/*
 * Keeps Tightrow on the device through the service worker (service-worker.ts).
 * Governing rule: a new version never interrupts. It waits, the next screen one goes to says so, and `takeUpdate` asks for it.
 */
import { useSyncExternalStore } from "react";
import { WORKER_POLICY } from "#shared/protocol/version.ts";

/**
 * absent = this page cannot keep itself (plain http on a phone, an old browser, development);
 * starting; kept = opens without a signal; update waiting = kept, and a newer version is ready.
 */
export type ShellState = "absent" | "starting" | "kept" | "update waiting";

let state: ShellState = "absent";
let registration: ServiceWorkerRegistration | null = null;
const listeners = new Set<() => void>();

const become = (next: ShellState) => {
  state = next;
  for (const changed of listeners) changed();
};

/** Looks for a newer version at most this often (ms) while the page stays open. */
const LOOK_EVERY = 60 * 60 * 1000;

interface TrustedTypes {
  createPolicy(
    name: string,
    rules: { createScriptURL(url: string): string },
  ): {
    createScriptURL(url: string): string;
  };
}

/** The one address the page may turn into code, by the one policy the headers allow. */
const workerUrl = (): string => {
  const { trustedTypes } = window as Window & { readonly trustedTypes?: TrustedTypes };
  const only = () => "/sw.js";
  return trustedTypes
    ? trustedTypes.createPolicy(WORKER_POLICY, { createScriptURL: only }).createScriptURL("")
    : only();
};

const settle = (found: ServiceWorkerRegistration) => {
  if (found.waiting && navigator.serviceWorker.controller) become("update waiting");
  else if (found.active) become("kept");
};

const follow = (found: ServiceWorkerRegistration) => {
  registration = found;
  settle(found);
  const watch = (installing: ServiceWorker | null) =>
    installing?.addEventListener("statechange", () => settle(found));
  watch(found.installing);
  found.addEventListener("updatefound", () => watch(found.installing));
  let looked = Date.now();
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState !== "visible" || Date.now() - looked < LOOK_EVERY) return;
    looked = Date.now();
    // Without a signal there is nothing newer to find.
    found.update().catch(() => {});
  });
};

let started = false;

/**
 * Starts keeping the client on this device. It fetches every file of it, so call it when the page has what it needs
 * itself; only the first call counts. Does nothing where keeping is impossible.
 */
export const startShellWorker = async (): Promise<void> => {
  if (started || !import.meta.env.PROD || !("serviceWorker" in navigator)) return;
  started = true;
  become("starting");
  try {
    follow(await navigator.serviceWorker.register(workerUrl()));
  } catch {
    become("absent");
  }
};

/** Puts the waiting version in place and opens it. Other open pages go on with the one they have. */
export const takeUpdate = (): void => {
  if (!registration?.waiting) return;
  navigator.serviceWorker.addEventListener("controllerchange", () => location.reload(), { once: true });
  registration.waiting.postMessage("take over");
};

export const shellState = (): ShellState => state;

/** Whether Tightrow is kept on this device, and whether a newer version waits. */
export const useShellWorker = (): ShellState =>
  useSyncExternalStore((changed) => {
    listeners.add(changed);
    return () => listeners.delete(changed);
  }, shellState);
