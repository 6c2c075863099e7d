/** What a key, or a foot pedal that sends keys, does in the room. Knows no page: the keys are told apart here. */

/** What the two buttons of a pedal do; off = no key does anything but what the browser does with it. */
export const PEDALS = ["songs", "details", "off"] as const;
export type Pedal = (typeof PEDALS)[number];

export type RoomAction =
  | "next song"
  | "previous song"
  | "next"
  | "previous"
  | "press"
  | "slip"
  | "clean"
  | "wobble"
  | "stopped";

export interface Press {
  readonly key: string;
  readonly repeat: boolean;
  /** With Control, Alt or the command key it belongs to the browser or a screen reader. */
  readonly modified: boolean;
}

/** What has the focus: nothing in particular, something to press, or something that needs its own keys. */
export type Focus = "none" | "control" | "own keys";

const KEYS: ReadonlyMap<string, RoomAction> = new Map([
  ["ArrowRight", "next song"],
  ["ArrowLeft", "previous song"],
  ["ArrowDown", "next"],
  ["ArrowUp", "previous"],
  [" ", "press"],
  ["Enter", "press"],
  ["s", "slip"],
  ["1", "clean"],
  ["2", "wobble"],
  ["3", "stopped"],
]);

/** Pedals send page keys or arrows: common practice, no published source. */
const PAGE_KEYS: { readonly [P in Exclude<Pedal, "off">]: ReadonlyMap<string, RoomAction> } = {
  songs: new Map([
    ["PageDown", "next song"],
    ["PageUp", "previous song"],
  ]),
  details: new Map([
    ["PageDown", "next"],
    ["PageUp", "press"],
  ]),
};

/**
 * The action of a key; null = the page leaves it alone. A control that has the focus is pressed by the browser itself, so
 * space and Enter are left to it. A key that is held down moves on and never presses or logs.
 */
export const roomAction = (
  { key, repeat, modified }: Press,
  focus: Focus,
  pedal: Pedal,
): RoomAction | null => {
  if (pedal === "off" || modified || focus === "own keys") return null;
  const action = PAGE_KEYS[pedal].get(key) ?? KEYS.get(key.length === 1 ? key.toLowerCase() : key) ?? null;
  const isMove = action === "next" || action === "previous";
  if (action === null || (repeat && !isMove)) return null;
  return action === "press" && (key === " " || key === "Enter") && focus === "control" ? null : action;
};

/** The keys in words, for the help. */
export const keyLines = (pedal: Exclude<Pedal, "off">): readonly (readonly [string, string])[] => [
  pedal === "songs"
    ? ["Page down, page up", "next song, previous song"]
    : ["Page down", "next thing to press"],
  ...(pedal === "songs" ? [] : ([["Page up", "press it"]] as const)),
  ["→ ←", "next song, previous song"],
  ["↓ ↑", "next and previous thing to press"],
  ["Space, Enter", "press it: a detail goes one step up"],
  ["S", "a slip on the detail you are on"],
  ["1 2 3", "log it clean, wobble, stopped"],
];
