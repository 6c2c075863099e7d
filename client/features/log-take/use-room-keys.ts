import { useCallback, useEffect, useRef, useState } from "react";
import { recall, remember } from "#client/pieces/device-memory.ts";
import type { Feel } from "#shared/board/take.ts";
import { type Focus, PEDALS, type Pedal, roomAction } from "./room-keys.ts";

const NAME = "pedal";

/** What a pedal does, chosen once for this device. */
export const usePedal = (): readonly [Pedal, (pedal: Pedal) => void] => {
  const [pedal, setPedal] = useState(() => PEDALS.find((one) => one === recall(NAME)) ?? PEDALS[0]);
  const choose = useCallback((next: Pedal) => {
    remember(NAME, next);
    setPedal(next);
  }, []);
  return [pedal, choose];
};

/** Marks, in the page, what the keys go through in order: `data-room-stop`. */
const STOPS = "main [data-room-stop]:not(:disabled), main [data-room-stop] button:not(:disabled)";
const OWN_KEYS =
  "input:not([type='checkbox']), select, textarea, [contenteditable], dialog, [popover], [role='menu'], [data-own-keys]";
const CONTROLS = "button, a[href], summary, input[type='checkbox']";

const focusOf = (target: EventTarget | null): Focus => {
  if (!(target instanceof Element)) return "none";
  if (target.closest(OWN_KEYS) !== null) return "own keys";
  return target.closest(CONTROLS) === null ? "none" : "control";
};

const stops = (): readonly HTMLElement[] =>
  [...document.querySelectorAll<HTMLElement>(STOPS)].filter((stop) => stop.matches("button, a"));

const step = (by: 1 | -1): void => {
  const all = stops();
  const at = all.indexOf(document.activeElement as HTMLElement);
  const to = at < 0 ? (by === 1 ? 0 : all.length - 1) : at + by;
  all[Math.max(0, Math.min(all.length - 1, to))]?.focus();
};

const press = (): void => {
  const at = document.activeElement;
  if (at instanceof HTMLElement && stops().includes(at)) at.click();
  else step(1);
};

const slip = (): void => {
  const row = document.activeElement?.closest("[data-card]");
  row?.querySelector<HTMLElement>("[data-slip]")?.click();
};

export interface RoomKeys {
  readonly pedal: Pedal;
  readonly log: (feel: Feel) => void;
  readonly next: () => void;
  readonly previous: () => void;
}

/** Listens for keys and pedals while a song is open in the room. Forms, menus and panels keep their own keys. */
export const useRoomKeys = (keys: RoomKeys): void => {
  const latest = useRef(keys);
  useEffect(() => {
    latest.current = keys;
  });
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      const { pedal, log, next, previous } = latest.current;
      if (event.defaultPrevented || document.querySelector("dialog:modal") !== null) return;
      const modified = event.ctrlKey || event.altKey || event.metaKey;
      const action = roomAction(
        { key: event.key, repeat: event.repeat, modified },
        focusOf(event.target),
        pedal,
      );
      if (action === null) return;
      event.preventDefault();
      if (action === "next song") next();
      else if (action === "previous song") previous();
      else if (action === "next") step(1);
      else if (action === "previous") step(-1);
      else if (action === "press") press();
      else if (action === "slip") slip();
      else log(action);
    };
    document.addEventListener("keydown", onKeyDown);
    return () => document.removeEventListener("keydown", onKeyDown);
  }, []);
};
