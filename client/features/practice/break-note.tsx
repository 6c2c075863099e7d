import { useEffect } from "react";
import { useBoardStore } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { BREAK_AFTER } from "#shared/selectors/practice-list.ts";
import { practisedOn, type Sitting } from "#shared/selectors/practice-sitting.ts";

const LOOK_MS = 5_000;

export interface BreakNoteProps {
  /** Practised since the last break, ms. */
  readonly played: number;
  readonly onChange: (change: (last: Sitting) => Partial<Sitting>) => void;
}

/** Counts the time a detail is open and in sight. */
export const usePracticeTime = (onChange: BreakNoteProps["onChange"]): void => {
  const store = useBoardStore();
  useEffect(() => {
    let last = performance.now();
    const timer = window.setInterval(() => {
      const now = performance.now();
      // A page that slept comes back with a long step: that was no practice.
      const passed = Math.min(now - last, 2 * LOOK_MS);
      last = now;
      if (!document.hidden) onChange((sitting) => practisedOn(sitting, passed, store.now()));
    }, LOOK_MS);
    return () => window.clearInterval(timer);
  }, [onChange, store]);
};

/** Says that it is time for a break; nothing stops by itself. */
export const BreakNote = ({ played, onChange }: BreakNoteProps) => (
  <div role="status">
    {played < BREAK_AFTER * 60_000 ? null : (
      <p className="mb-4 flex flex-wrap items-center gap-x-4 border-l-4 border-accent pl-3 text-room">
        <span>
          You have practised for {Math.floor(played / 60_000)} minutes. Give your hands a break now.
        </span>
        <Button tone="quiet" size="room" onClick={() => onChange(() => ({ played: 0 }))}>
          I have had one
        </Button>
      </p>
    )}
  </div>
);
