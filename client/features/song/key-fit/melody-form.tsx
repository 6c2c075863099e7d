import { useState } from "react";
import { InPlaceForm } from "#client/pieces/in-place-form.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { Choice } from "#client/ui/choice.tsx";
import { TextArea, TextField } from "#client/ui/text-field.tsx";
import type { Song } from "#shared/board/song.ts";
import { reviseSong } from "#shared/commands/revise-song.ts";
import { formatKey, type Key, parseKey } from "#shared/music/key.ts";
import { noteName, parseNote } from "#shared/music/note-name.ts";
import {
  MELODY_LABELS,
  MELODY_NOTES,
  type MelodyNote,
  type MelodyReading,
  type MelodyText,
  melodyText,
  readMelody,
  readTimes,
  timesText,
} from "#shared/selectors/melody-draft.ts";
import { OCTAVE_HINT, PLAIN_KEY } from "#shared/selectors/voice-draft.ts";
import { NoteKeyboard } from "./note-keyboard.tsx";

type By = "notes" | "times";

const PRESSED: Readonly<Record<MelodyNote, string>> = { low: "lowest", typical: "usual", high: "highest" };

interface ThreeNotesProps {
  readonly text: MelodyText;
  readonly onChange: (text: MelodyText) => void;
  readonly reading: MelodyReading | null;
  readonly spelling: Key;
}

/** Three notes, typed or pressed. */
const ThreeNotes = ({ text, onChange, reading, spelling }: ThreeNotesProps) => {
  const [next, setNext] = useState<MelodyNote>("low");
  const pressed = (pitch: number) => {
    onChange({ ...text, [next]: noteName(pitch, spelling) });
    const after = MELODY_NOTES[MELODY_NOTES.indexOf(next) + 1];
    if (after !== undefined) setNext(after);
  };
  const marks = new Map(
    MELODY_NOTES.flatMap((note) => {
      const read = parseNote(text[note]);
      return read.ok ? [[read.value, MELODY_LABELS[note].toLowerCase()] as const] : [];
    }),
  );
  return (
    <>
      <div className="grid gap-x-6 gap-y-3 tablet:grid-cols-3">
        {MELODY_NOTES.map((note) => (
          <TextField
            key={note}
            label={MELODY_LABELS[note]}
            value={text[note]}
            maxLength={20}
            onFocus={() => setNext(note)}
            onChange={(value) => onChange({ ...text, [note]: value })}
            error={reading !== null && !reading.ok && reading.note === note ? reading.error : undefined}
          />
        ))}
      </div>
      <p className="caption">By note and octave, such as F#3 or Bb4; {OCTAVE_HINT} Or press them here.</p>
      <Choice
        label="The next key you press is the"
        value={next}
        options={MELODY_NOTES.map((note) => ({ value: note, label: PRESSED[note] }))}
        onChange={setNext}
      />
      <NoteKeyboard spelling={spelling} marks={marks} onPress={pressed} />
    </>
  );
};

/** Writes down what a melody asks of a voice: by three notes, or by the time each note is sung. */
export const MelodyForm = ({ song, onDone }: { readonly song: Song; readonly onDone: () => void }) => {
  const act = useAct();
  const { melody } = song;
  const [by, setBy] = useState<By>(melody !== null && "histogram" in melody ? "times" : "notes");
  const [text, setText] = useState(() => melodyText(melody));
  const [times, setTimes] = useState(() => timesText(melody));
  const [keyText, setKeyText] = useState(melody?.key || song.recordKey || song.key);
  const [tried, setTried] = useState(false);
  const key = parseKey(keyText);
  const spelling = key.ok ? key.value : PLAIN_KEY;
  const reading = by === "notes" ? readMelody(text, spelling) : readTimes(times, spelling);
  const said = !reading.ok || reading.melody !== null;
  const save = () => {
    setTried(true);
    if (!reading.ok || (said && !key.ok)) return;
    const fields = { melody: reading.melody };
    if (act(reviseSong, { song: song.id, fields }, `${song.title}: what the melody asks for`)) onDone();
  };
  return (
    <InPlaceForm label="the melody's notes" onSave={save} onLeave={onDone}>
      <Choice
        label="Give it by"
        value={by}
        options={[
          { value: "notes", label: "Three notes" },
          { value: "times", label: "The time of each note" },
        ]}
        onChange={setBy}
      />
      <TextField
        label="In the key of"
        hint={`The key these notes are in, so that they stay right when ours changes.${key.ok ? ` Spelled as in ${formatKey(key.value)}.` : ""}`}
        value={keyText}
        maxLength={40}
        onChange={setKeyText}
        error={tried && said && !key.ok ? key.error : undefined}
      />
      {by === "notes" ? (
        <ThreeNotes text={text} onChange={setText} reading={tried ? reading : null} spelling={spelling} />
      ) : (
        <TextArea
          label="A note and how long it is sung, one a line"
          hint="A4 12.5, or by number: 69 12.5. Any unit will do; paste what a program counted. The lift stays out of it."
          value={times}
          rows={6}
          onChange={setTimes}
          error={tried && !reading.ok ? reading.error : undefined}
        />
      )}
    </InPlaceForm>
  );
};
