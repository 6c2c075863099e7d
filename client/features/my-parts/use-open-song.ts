import { useCallback, useEffect, useLayoutEffect, useRef, useState } from "react";
import { useDraft } from "#client/pieces/use-draft.ts";
import { useBoardId } from "#client/store/hooks.ts";

export interface OpenSong {
  /** Id of the song that is unfolded; empty = none. */
  readonly open: string;
  readonly toggle: (song: string, open: boolean) => void;
  /** Unfolds a song and goes to one of its details. */
  readonly goTo: (song: string, card: string) => void;
}

const row = (song: string): HTMLElement | null =>
  document.querySelector<HTMLElement>(`[data-song="${CSS.escape(song)}"]`);

const topOf = (song: string): number | null => row(song)?.getBoundingClientRect().top ?? null;

/**
 * One song is unfolded at a time, and again after a reload. When the one above it folds, the page follows, so that
 * the line under the thumb stays under the thumb.
 */
export const useOpenSong = (member: string): OpenSong => {
  const [open, setOpen] = useDraft(`parts.${useBoardId()}.${member}`);
  const held = useRef<{ readonly song: string; readonly top: number } | null>(null);
  const [target, setTarget] = useState<{ readonly song: string; readonly card: string } | null>(null);
  const first = useRef(open);

  const toggle = useCallback(
    (song: string, now: boolean) => {
      const top = topOf(song);
      if (now && top !== null) held.current = { song, top };
      setOpen(now ? song : "");
    },
    [setOpen],
  );
  const goTo = useCallback(
    (song: string, card: string) => {
      setOpen(song);
      setTarget({ song, card });
    },
    [setOpen],
  );

  // biome-ignore lint/correctness/useExhaustiveDependencies: after each fold or unfold
  useLayoutEffect(() => {
    const { current } = held;
    held.current = null;
    const top = current === null ? null : topOf(current.song);
    if (current !== null && top !== null && top !== current.top) window.scrollBy(0, top - current.top);
  }, [open]);
  useEffect(() => {
    if (target === null) return;
    setTarget(null);
    const detail = row(target.song)?.querySelector<HTMLElement>(`[data-card="${CSS.escape(target.card)}"]`);
    detail?.scrollIntoView({ block: "center" });
    detail?.querySelector<HTMLElement>("button:not(:disabled)")?.focus({ preventScroll: true });
  }, [target]);
  useEffect(() => {
    if (first.current !== "") row(first.current)?.scrollIntoView({ block: "start" });
  }, []);
  return { open, toggle, goTo };
};
