/** How screens say where this device is, and who else is there. */
import { createContext, useCallback, useContext, useEffect, useRef, useSyncExternalStore } from "react";
import { ALONE, type Place, type PresenceScreen, type PresenceStore, type Present } from "./presence.ts";

/** The presence of the screens below. A context of its own: it comes later than the board, and draws none of it anew. */
export const PresenceContext = createContext<PresenceStore>(ALONE);

/** Says where this device is while the component is shown. What opens later, such as a sheet, counts instead. */
export const useStand = (
  screen: PresenceScreen,
  song: string | null = null,
  chair: string | null = null,
): void => {
  const presence = useContext(PresenceContext);
  useEffect(() => presence.stand({ screen, song, chair }), [presence, screen, song, chair]);
};

/** For what moves without rendering, such as the focus: takes a place, leaves the one before; null = none. */
export const useMove = (): ((place: Place | null) => void) => {
  const presence = useContext(PresenceContext);
  const leave = useRef<(() => void) | null>(null);
  useEffect(() => () => leave.current?.(), []);
  return useCallback(
    (place) => {
      leave.current?.();
      leave.current = place === null ? null : presence.stand(place);
    },
    [presence],
  );
};

/** Other people in one cell; renders when that changes. */
export const usePresentAt = (song: string, chair: string): readonly Present[] => {
  const presence = useContext(PresenceContext);
  const subscribe = useCallback(
    (listener: () => void) => presence.subscribe(`cell:${song}/${chair}`, listener),
    [presence, song, chair],
  );
  return useSyncExternalStore(subscribe, () => presence.at(song, chair));
};

/** Every other person on the board. */
export const useEverybodyPresent = (): readonly Present[] => {
  const presence = useContext(PresenceContext);
  const subscribe = useCallback(
    (listener: () => void) => presence.subscribe("everybody", listener),
    [presence],
  );
  return useSyncExternalStore(subscribe, presence.everybody);
};
