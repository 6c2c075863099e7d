import { useCallback, useEffect, useState } from "react";
import { recall, remember } from "#client/pieces/device-memory.ts";

/** Remembered apart: on stage a screen stays on unless somebody said otherwise. */
const NAMES = { room: "stay-awake", stage: "stay-awake-on-stage" } as const;

/** on = the screen stays on; off = it may sleep; not here = this browser cannot, or only over https. */
export type Awake = "on" | "off" | "insecure" | "unknown to it";

const possible = (): "yes" | "insecure" | "unknown to it" =>
  "wakeLock" in navigator ? "yes" : window.isSecureContext ? "unknown to it" : "insecure";

/**
 * Keeps the screen on while this screen is open, if that was asked for on this device. The browser lets go of it whenever
 * the page is out of sight and may refuse (a low battery), so it is asked again, and what holds is what is said.
 */
export const useAwake = (place: keyof typeof NAMES = "room"): readonly [Awake, (wanted: boolean) => void] => {
  const [wanted, setWanted] = useState(
    () => (recall(NAMES[place]) ?? (place === "stage" ? "yes" : "no")) === "yes",
  );
  const [held, setHeld] = useState(false);
  useEffect(() => {
    if (!wanted || possible() !== "yes") return;
    let over = false;
    let lock: WakeLockSentinel | null = null;
    const ask = async (): Promise<void> => {
      if (document.visibilityState !== "visible" || (lock !== null && !lock.released)) return;
      try {
        const got = await navigator.wakeLock.request("screen");
        if (over) return void got.release();
        lock = got;
        setHeld(true);
        got.addEventListener("release", () => setHeld(false));
      } catch {
        setHeld(false);
      }
    };
    const again = (): void => void ask();
    again();
    document.addEventListener("visibilitychange", again);
    return () => {
      over = true;
      document.removeEventListener("visibilitychange", again);
      void lock?.release();
      setHeld(false);
    };
  }, [wanted]);
  const want = useCallback(
    (next: boolean) => {
      remember(NAMES[place], next ? "yes" : "no");
      setWanted(next);
    },
    [place],
  );
  const can = possible();
  return [can === "yes" ? (held ? "on" : "off") : can, want];
};
