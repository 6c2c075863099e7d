import { useState } from "react";
import { ShapeView } from "#client/pieces/shape-view.tsx";
import { useBand, useChairs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Choice } from "#client/ui/choice.tsx";
import { NumberField } from "#client/ui/number-field.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import {
  CAPO_MOST,
  FINGER_MOST,
  FRET_MOST,
  type Shape,
  STRINGS_LEAST,
  STRINGS_MOST,
} from "#shared/board/grid.ts";
import type { Song } from "#shared/board/song.ts";
import { tunedShapeFault } from "#shared/music/fretboard.ts";
import { fretsText, readFrets } from "#shared/music/grid-words.ts";
import { emptyShape, withFinger, withFret, withFrets, withStrings } from "#shared/selectors/grid-draft.ts";

export interface ShapeFieldsProps {
  readonly shape: Shape | null;
  readonly onChange: (shape: Shape | null) => void;
  /** Chairs of the detail. */
  readonly chairs: readonly string[];
  /** Its capo and its tuning are where a shape begins. */
  readonly song: Pick<Song, "capo" | "tuning" | "key">;
}

const NOT_PLAYED = "x";
const NO_FINGER = "";
const FRETS = [
  { value: NOT_PLAYED, label: "not played" },
  { value: "0", label: "open" },
  ...Array.from({ length: FRET_MOST }, (_, i) => ({ value: String(i + 1), label: `fret ${i + 1}` })),
];
const FINGERS = [
  { value: NO_FINGER, label: "no finger" },
  ...Array.from({ length: FINGER_MOST }, (_, i) => ({ value: String(i + 1), label: `finger ${i + 1}` })),
];
const STRINGS = [4, 5, 6, 7, 8].map((n) => ({ value: String(n), label: String(n) }));

/** Writes a shape in one line as bands do, or string by string. */
export const ShapeFields = ({ shape, onChange, chairs, song }: ShapeFieldsProps) => {
  const all = useChairs();
  const band = useBand();
  if (shape === null) {
    const chair = all.find(({ id }) => id === chairs[0]);
    return <Button onClick={() => onChange(emptyShape(chair, song.capo))}>Write a shape</Button>;
  }
  const fault = tunedShapeFault(shape);
  return (
    <div className="flex flex-col gap-3">
      <FretsLine shape={shape} onChange={onChange} />
      {fault === null ? <ShapeView shape={shape} song={song} /> : <p role="status">{fault}</p>}
      <Choice
        label="Strings"
        value={String(shape.frets.length)}
        options={STRINGS}
        onChange={(count) => onChange(withStrings(shape, Number(count)))}
      />
      <NumberField
        label="Capo"
        unit="fret"
        value={shape.capo}
        min={0}
        max={CAPO_MOST}
        onChange={(fret) => onChange({ ...shape, capo: fret ?? 0 })}
        hint="0 = none. Frets are counted from it."
      />
      <TextField
        label="Open strings, lowest first"
        value={shape.tuning ?? ""}
        autoCapitalize="off"
        hint={`Notes such as D A D G A D, or a tuning by its name. Empty = as the song: ${song.tuning || band.tuning}.`}
        onChange={(text) => {
          const { tuning: _, ...others } = shape;
          onChange(text.trim() === "" ? others : { ...others, tuning: text });
        }}
      />
      {shape.frets.map((fret, i) => {
        const number = shape.frets.length - i;
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: a string is its place
          <div key={i} className="grid grid-cols-2 gap-x-4">
            <Select
              label={`String ${number}${i === 0 ? ", the lowest" : ""}`}
              value={fret === null ? NOT_PLAYED : String(fret)}
              options={FRETS}
              onChange={(chosen) =>
                onChange(withFret(shape, i, chosen === NOT_PLAYED ? null : Number(chosen)))
              }
            />
            <Select
              label={`Finger on string ${number}`}
              value={String(shape.fingers[i] ?? NO_FINGER)}
              options={FINGERS}
              disabled={fret === null || fret === 0}
              onChange={(chosen) =>
                onChange(withFinger(shape, i, chosen === NO_FINGER ? null : Number(chosen)))
              }
            />
          </div>
        );
      })}
      <div>
        <Button tone="quiet" onClick={() => onChange(null)}>
          Take the shape off
        </Button>
      </div>
    </div>
  );
};

/** All frets in one line; what cannot be read stays, with a sentence that says why. */
const FretsLine = ({
  shape,
  onChange,
}: {
  readonly shape: Shape;
  readonly onChange: (shape: Shape) => void;
}) => {
  const [typed, setTyped] = useState<string | null>(null);
  const fits = (frets: readonly unknown[] | null): boolean =>
    frets !== null && frets.length >= STRINGS_LEAST && frets.length <= STRINGS_MOST;
  const wrong = typed !== null && !fits(readFrets(typed));
  return (
    <TextField
      label="Frets, lowest string first"
      value={typed ?? fretsText(shape)}
      autoCapitalize="off"
      hint="x = not played, 0 = open: x32010; with hyphens from fret 10 on: 10-12-12-11-x-x."
      error={
        wrong
          ? `Give ${STRINGS_LEAST} to ${STRINGS_MOST} strings, each x or a fret from 0 to ${FRET_MOST}.`
          : undefined
      }
      onChange={(text) => {
        setTyped(text);
        const frets = readFrets(text);
        if (frets !== null && fits(frets)) onChange(withFrets(shape, frets));
      }}
      onBlur={() => wrong || setTyped(null)}
    />
  );
};
