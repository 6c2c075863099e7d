/*
 * Tightrow among the apps of a device. A browser says once, early, that it could put the page there; what it handed
 * over is kept for whoever asks.
 */
import { useSyncExternalStore } from "react";

/** What a browser hands over when it could install the page (W3C Manifest Incubations, BeforeInstallPromptEvent). */
interface InstallPrompt extends Event {
  prompt(): Promise<unknown>;
}

/**
 * there = this window was opened from the home screen; offered = the browser asks when told to; by hand = its own menu
 * can; absent = nothing is known of either.
 */
export type HomeScreen = "there" | "offered" | "by hand" | "absent";

let prompt: InstallPrompt | null = null;
let installed = false;
const listeners = new Set<() => void>();
const tell = (): void => {
  for (const changed of listeners) changed();
};

/** Call it before the page has loaded: the browser does not say it twice. */
export const listenForInstall = (): void => {
  window.addEventListener("beforeinstallprompt", (event) => {
    // The browser's own bar would come over whatever somebody is doing.
    event.preventDefault();
    prompt = event as InstallPrompt;
    tell();
  });
  window.addEventListener("appinstalled", () => {
    prompt = null;
    installed = true;
    tell();
  });
};

export const homeScreen = (): HomeScreen => {
  if (installed || window.matchMedia("(display-mode: standalone)").matches) return "there";
  if (prompt !== null) return "offered";
  // Browsers with this property have no event, and an entry in their menu.
  if ("standalone" in navigator) return navigator.standalone === true ? "there" : "by hand";
  return "absent";
};

/** Lets the browser ask. It may be asked once; later it is `absent`. */
export const putOnHomeScreen = async (): Promise<void> => {
  const asked = prompt;
  prompt = null;
  tell();
  await asked?.prompt();
};

export const useHomeScreen = (): HomeScreen =>
  useSyncExternalStore((changed) => {
    listeners.add(changed);
    return () => listeners.delete(changed);
  }, homeScreen);
