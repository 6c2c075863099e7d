import { useSyncExternalStore } from "react";

/** system = as the device says. */
export type Theme = "system" | "dark" | "light";
/** stand = a quarter larger, to be read from a music stand. */
export type TextSize = "plain" | "stand";

const THEMES = ["system", "dark", "light"] as const satisfies readonly Theme[];
const TEXT_SIZES = ["plain", "stand"] as const satisfies readonly TextSize[];

/** Prefix of the storage keys; `public/display.js` reads the same ones before the first paint. */
const KEY = "tightrow.";

const listeners = new Set<() => void>();

const subscribe = (changed: () => void) => {
  listeners.add(changed);
  return () => {
    listeners.delete(changed);
  };
};

const read = <Value extends string>(key: "theme" | "size", values: readonly [Value, ...Value[]]): Value =>
  values.find((value) => value === document.documentElement.dataset[key]) ?? values[0];

/** The first of `values` is what holds when nothing is chosen, and is kept as nothing. */
const choose = (key: "theme" | "size", value: string, unset: string) => {
  if (value === unset) delete document.documentElement.dataset[key];
  else document.documentElement.dataset[key] = value;
  try {
    if (value === unset) localStorage.removeItem(KEY + key);
    else localStorage.setItem(KEY + key, value);
  } catch {
    // Storage is closed to this page: the choice holds until it is closed too.
  }
  for (const changed of listeners) changed();
};

export interface Display {
  readonly theme: Theme;
  readonly size: TextSize;
  readonly setTheme: (theme: Theme) => void;
  readonly setSize: (size: TextSize) => void;
}

const setTheme = (theme: Theme) => choose("theme", theme, THEMES[0]);
const setSize = (size: TextSize) => choose("size", size, TEXT_SIZES[0]);

/** Theme and text size of this device, and how to choose them. */
export const useDisplay = (): Display => ({
  theme: useSyncExternalStore(subscribe, () => read("theme", THEMES)),
  size: useSyncExternalStore(subscribe, () => read("size", TEXT_SIZES)),
  setTheme,
  setSize,
});
