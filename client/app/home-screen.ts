/*
 * Tightrow among the apps of a device. A browser says once, early, that it could put the page there; what it handed
 * over is kept for whoever asks.
 */
import { useSyncExternalStore } from "react";
import { installing, tellInstalling } from "./installing.ts";

/**
 * there = this window was opened from the home screen; offered = the browser asks when told to; by hand = its own menu
 * can; absent = nothing is known of either.
 */
export type HomeScreen = "there" | "offered" | "by hand" | "absent";

export const homeScreen = (): HomeScreen => {
  const { prompt, installed } = installing;
  if (installed || window.matchMedia("(display-mode: standalone)").matches) return "there";
  if (prompt !== null) return "offered";
  // Browsers with this property have no event, and an entry in their menu.
  if ("standalone" in navigator) return navigator.standalone === true ? "there" : "by hand";
  return "absent";
};

/** Lets the browser ask. It may be asked once; later it is `absent`. */
export const putOnHomeScreen = async (): Promise<void> => {
  const { prompt } = installing;
  installing.prompt = null;
  tellInstalling();
  await prompt?.prompt();
};

export const useHomeScreen = (): HomeScreen =>
  useSyncExternalStore((changed) => {
    installing.listeners.add(changed);
    return () => installing.listeners.delete(changed);
  }, homeScreen);
