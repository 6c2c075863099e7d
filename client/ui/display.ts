import { useSyncExternalStore } from "react";

/** system = as the device says. */
export type Theme = "system" | "dark" | "light";
/** stand = a quarter larger, to be read from a music stand. */
export type TextSize = "plain" | "stand";
/** The hand whose thumb does the tapping: on its side stand the things to tap. */
export type Hand = "right" | "left";
/** How the room looks: near-black whatever the theme, or as everything else. */
export type RoomLight = "dark" | "themed";

const THEMES = ["system", "dark", "light"] as const satisfies readonly Theme[];
const TEXT_SIZES = ["plain", "stand"] as const satisfies readonly TextSize[];
const HANDS = ["right", "left"] as const satisfies readonly Hand[];
const ROOM_LIGHTS = ["dark", "themed"] as const satisfies readonly RoomLight[];

type Key = "theme" | "size" | "hand" | "room";

/** Prefix of the storage keys; `public/display.js` reads the same ones before the first paint. */
const KEY = "tightrow.";

const listeners = new Set<() => void>();

const subscribe = (changed: () => void) => {
  listeners.add(changed);
  return () => {
    listeners.delete(changed);
  };
};

const read = <Value extends string>(key: Key, values: readonly [Value, ...Value[]]): Value =>
  values.find((value) => value === document.documentElement.dataset[key]) ?? values[0];

/** The first of `values` is what holds when nothing is chosen, and is kept as nothing. */
const choose = (key: Key, value: string, unset: string) => {
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
  readonly hand: Hand;
  readonly room: RoomLight;
  readonly setTheme: (theme: Theme) => void;
  readonly setSize: (size: TextSize) => void;
  readonly setHand: (hand: Hand) => void;
  readonly setRoom: (room: RoomLight) => void;
}

const setTheme = (theme: Theme) => choose("theme", theme, THEMES[0]);
const setSize = (size: TextSize) => choose("size", size, TEXT_SIZES[0]);

const setHand = (hand: Hand) => choose("hand", hand, HANDS[0]);
const setRoom = (room: RoomLight) => choose("room", room, ROOM_LIGHTS[0]);

/** Theme, text size, hand and the room's light on this device, and how to choose them. */
export const useDisplay = (): Display => ({
  theme: useSyncExternalStore(subscribe, () => read("theme", THEMES)),
  size: useSyncExternalStore(subscribe, () => read("size", TEXT_SIZES)),
  hand: useSyncExternalStore(subscribe, () => read("hand", HANDS)),
  room: useSyncExternalStore(subscribe, () => read("room", ROOM_LIGHTS)),
  setTheme,
  setSize,
  setHand,
  setRoom,
});
