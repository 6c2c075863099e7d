/** What a key, or a foot pedal that sends keys, does on stage. Knows no page. */

export type StandAction = "next" | "back" | "pause" | "flag" | "take over";

export interface StandPress {
  readonly key: string;
  /** A key that is held down does nothing more: a foot may rest on a pedal. */
  readonly repeat: boolean;
  /** With Control, Alt or the command key it belongs to the browser or a screen reader. */
  readonly modified: boolean;
}

/** Pedals send page keys or arrows: common practice, no published source. */
const KEYS: ReadonlyMap<string, StandAction> = new Map([
  ["PageDown", "next"],
  ["ArrowRight", "next"],
  ["ArrowDown", "next"],
  [" ", "next"],
  ["Enter", "next"],
  ["PageUp", "back"],
  ["ArrowLeft", "back"],
  ["ArrowUp", "back"],
]);

/** Single letters can be switched off with the room's keys, for whoever speaks to their device (WCAG 2.2, 2.1.4). */
const LETTERS: ReadonlyMap<string, StandAction> = new Map([
  ["f", "flag"],
  ["p", "pause"],
  ["t", "take over"],
]);

/**
 * The action of a key; null = the page leaves it alone. "held" = it is ours and does nothing. What the keyboard has
 * walked to is pressed by the browser itself, so space and Enter are left to it.
 */
export const standAction = (
  { key, repeat, modified }: StandPress,
  onControl: boolean,
  letters: boolean,
): StandAction | "held" | null => {
  if (modified || (onControl && (key === " " || key === "Enter"))) return null;
  const action = KEYS.get(key) ?? (letters ? LETTERS.get(key.toLowerCase()) : undefined);
  if (action === undefined) return null;
  return repeat ? "held" : action;
};

/** The keys in words. */
export const STAND_KEYS =
  "Page down, right arrow or space: on. Page up or left arrow: back. F: flag. P: pause. T: take over.";
