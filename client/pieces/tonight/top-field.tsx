import { useState } from "react";
import { recall, remember } from "#client/pieces/device-memory.ts";
import { useBoardId, useViewpoint } from "#client/store/hooks.ts";
import { TextField } from "#client/ui/text-field.tsx";
import type { Key } from "#shared/music/key.ts";
import { noteName } from "#shared/music/note-name.ts";
import { keepTop, readTop, readTopNote } from "#shared/selectors/tonight-top.ts";

export interface TopFieldProps {
  /** The singer, whose device this is. */
  readonly member: string;
  /** As it stands when the field appears. */
  readonly top: number | null;
  /** How the note is spelled. */
  readonly spelling: Key;
  readonly onTop: (top: number | null) => void;
}

/** A letter and its sign, the octave still to come. */
const BEGUN = /^[A-Ga-g](#|b|♯|♭)?$/u;

const nameOf = (board: string, member: string): string => `tonight-top.${board}.${member}`;

/** The top kept on this device for today, and how it is replaced on the screen. */
export const useTop = (member: string): readonly [number | null, (top: number | null) => void] => {
  const board = useBoardId();
  const [{ today }] = useViewpoint();
  const [top, setTop] = useState(() => readTop(recall(nameOf(board, member)), today));
  return [top, setTop];
};

/** Where the voice ends tonight: typed by the singer, kept on this device for this day. */
export const TopField = ({ member, top, spelling, onTop }: TopFieldProps) => {
  const board = useBoardId();
  const [{ today }] = useViewpoint();
  const [text, setText] = useState(() => (top === null ? "" : noteName(top, spelling)));
  // A note that is still being typed is no fault yet.
  const [left, setLeft] = useState(true);
  const read = readTopNote(text);
  const type = (value: string) => {
    setText(value);
    setLeft(false);
    const next = readTopNote(value);
    if (!next.ok) return onTop(null);
    remember(nameOf(board, member), keepTop(next.value, today));
    onTop(next.value);
  };
  return (
    <>
      <TextField
        label="Your highest note tonight"
        hint="Stays on this device, nobody else sees it, and tomorrow it is gone. Empty = as always."
        value={text}
        maxLength={20}
        onChange={type}
        onBlur={() => setLeft(true)}
        error={read.ok || (!left && BEGUN.test(text.trim())) ? undefined : read.error}
      />
      <p className="caption mt-2">
        Where it hurts or stays low, rest it, and ask a voice teacher or a doctor.
      </p>
    </>
  );
};
