import { useCallback, useSyncExternalStore } from "react";

/** Width from which the laptop layout holds; the `laptop` breakpoint of the tokens. */
export const LAPTOP = "(width >= 60rem)";

/** True while the media query holds; renders again when that changes. */
export const useMediaQuery = (query: string): boolean => {
  const subscribe = useCallback(
    (changed: () => void) => {
      const list = window.matchMedia(query);
      list.addEventListener("change", changed);
      return () => list.removeEventListener("change", changed);
    },
    [query],
  );
  return useSyncExternalStore(subscribe, () => window.matchMedia(query).matches);
};
