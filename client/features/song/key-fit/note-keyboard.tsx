import { type KeyboardEvent, useLayoutEffect, useRef, useState } from "react";
import { classNames } from "#client/ui/class-names.ts";
import type { Key } from "#shared/music/key.ts";
import { noteName } from "#shared/music/note-name.ts";

export interface NoteKeyboardProps {
  /** How the notes are spelled. */
  readonly spelling: Key;
  /** Notes that are chosen, by pitch, with what they are. */
  readonly marks: ReadonlyMap<number, string>;
  readonly onPress: (pitch: number) => void;
}

/** C2 to C6. */
const LOWEST = 36;
const HIGHEST = 84;
const MIDDLE_C = 60;
/** Half widths of a white key from the left end of an octave, for every semitone. */
const PLACE = [0, 1, 2, 3, 4, 6, 7, 8, 9, 10, 11, 12] as const;
const OCTAVE_WIDTH = 14;

const PITCHES = Array.from({ length: HIGHEST - LOWEST + 1 }, (_, i) => LOWEST + i);
const isBlack = (pitch: number): boolean => [1, 3, 6, 8, 10].includes(pitch % 12);

/** The column a key begins in, from 1. */
const columnOf = (pitch: number): number =>
  Math.floor((pitch - LOWEST) / 12) * OCTAVE_WIDTH + (PLACE[pitch % 12] ?? 0) + 1;

/**
 * The keys of a piano to press a note on; black ones stand in a row of their own, so that a thumb meets each. One tab stop:
 * arrow keys move by a semitone, up and down by an octave.
 */
export const NoteKeyboard = ({ spelling, marks, onPress }: NoteKeyboardProps) => {
  const keys = useRef(new Map<number, HTMLButtonElement>());
  const area = useRef<HTMLFieldSetElement>(null);
  const [at, setAt] = useState(() => [...marks.keys()][0] ?? MIDDLE_C);
  const first = useRef(Math.min(HIGHEST, Math.max(LOWEST, at)));
  useLayoutEffect(() => {
    const key = keys.current.get(first.current);
    if (area.current !== null && key !== undefined)
      area.current.scrollLeft = key.offsetLeft - area.current.clientWidth / 3;
  }, []);
  const onKeyDown = (event: KeyboardEvent) => {
    const by = { ArrowLeft: -1, ArrowRight: 1, ArrowDown: -12, ArrowUp: 12 }[event.key];
    if (by === undefined) return;
    event.preventDefault();
    const to = at + by;
    if (to < LOWEST || to > HIGHEST) return;
    setAt(to);
    keys.current.get(to)?.focus();
  };
  return (
    <fieldset
      ref={area}
      aria-label="Keys of a piano"
      onKeyDown={onKeyDown}
      className="relative min-w-0 overflow-x-auto pb-2"
    >
      <div className="grid w-max auto-cols-[1.5rem] grid-rows-[3rem_3.5rem] gap-y-px">
        {PITCHES.map((pitch) => {
          const name = noteName(pitch, spelling);
          const mark = marks.get(pitch);
          return (
            <button
              key={pitch}
              type="button"
              ref={(element) => {
                if (element === null) keys.current.delete(pitch);
                else keys.current.set(pitch, element);
              }}
              tabIndex={pitch === Math.min(HIGHEST, Math.max(LOWEST, at)) ? 0 : -1}
              aria-label={mark === undefined ? name : `${name}, ${mark}`}
              aria-pressed={mark !== undefined}
              onFocus={() => setAt(pitch)}
              onClick={() => onPress(pitch)}
              style={{ gridColumn: `${columnOf(pitch)} / span 2`, gridRow: isBlack(pitch) ? 1 : 2 }}
              className={classNames(
                "-outline-offset-4 rounded-edge border text-small",
                isBlack(pitch)
                  ? "mx-0.5 forced-color-adjust-none border-ink bg-ink text-ground outline-ground"
                  : "border-control bg-raised text-ink",
                mark !== undefined && "border-4 border-accent font-semibold",
              )}
            >
              {name}
            </button>
          );
        })}
      </div>
    </fieldset>
  );
};
