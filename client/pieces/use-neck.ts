import { useSyncExternalStore } from "react";
import { recall, remember } from "./device-memory.ts";

/** The hand that frets stands on the other side for a left-handed player, and so does what is drawn. */
export type Neck = "right" | "left";

const NAME = "neck";
const listeners = new Set<() => void>();
let chosen: Neck | null = null;

const subscribe = (changed: () => void) => {
  listeners.add(changed);
  return () => {
    listeners.delete(changed);
  };
};

const neckNow = (): Neck => {
  chosen ??= recall(NAME) === "left" ? "left" : "right";
  return chosen;
};

const setNeck = (neck: Neck): void => {
  chosen = neck;
  remember(NAME, neck);
  for (const changed of listeners) changed();
};

/** How fretboards are drawn on this device. */
export const useNeck = (): { readonly neck: Neck; readonly setNeck: (neck: Neck) => void } => ({
  neck: useSyncExternalStore(subscribe, neckNow),
  setNeck,
});
