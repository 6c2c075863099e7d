import type { KeyboardEvent } from "react";

export interface TapTempoProps {
  /** Called at every tap with its moment in ms on the event clock (`performance.now()`). */
  readonly onTap: (at: number) => void;
  /** The tempo so far in words, or an invitation. */
  readonly reading: string;
  readonly label?: string;
  /** Under the reading: how far off it is. */
  readonly note?: string;
  /** big = to be hit without looking. */
  readonly size?: "plain" | "big";
}

/**
 * A pad to tap the beat on. It answers to the press and not to the release: the moment of the press is the beat,
 * and a stray tap costs nothing (WCAG 2.5.2, "essential", as with the keys of a keyboard).
 */
export const TapTempo = ({ onTap, reading, label = "Tap the beat", note, size = "plain" }: TapTempoProps) => {
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.repeat || (event.key !== " " && event.key !== "Enter")) return;
    event.preventDefault();
    onTap(event.timeStamp);
  };
  return (
    <button
      type="button"
      onPointerDown={(event) => event.isPrimary && event.button === 0 && onTap(event.timeStamp)}
      onKeyDown={onKeyDown}
      data-own-keys
      className={`${size === "big" ? "min-h-[45vh]" : "min-h-32"} flex w-full touch-none flex-col items-center justify-center rounded-edge border border-control text-room select-none hover:border-ink active:border-2 active:border-ink`}
    >
      <span className="text-display">{reading}</span>
      {note === undefined ? null : <span className="min-h-[1.625rem]">{note}</span>}
      <span className="caption">{label}</span>
    </button>
  );
};
