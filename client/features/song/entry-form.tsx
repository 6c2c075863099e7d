import { type FormEvent, type KeyboardEvent, useEffect, useRef, useState } from "react";
import { LearnAgain } from "#client/pieces/detail/learn-again.tsx";
import { type Step, step, useActTogether } from "#client/pieces/use-act.ts";
import { Button } from "#client/ui/button.tsx";
import { TextArea, TextField } from "#client/ui/text-field.tsx";
import type { Song } from "#shared/board/song.ts";
import { reviseSong } from "#shared/commands/revise-song.ts";
import { rule } from "#shared/commands/rule.ts";
import { capital } from "#shared/readiness/names.ts";
import {
  SONG_ENTRY,
  type SongEntry,
  type SongEntryName,
  type SongFields,
} from "#shared/selectors/song-entries.ts";
import { NO_RULING, type RulingDraft, RulingFields } from "./ruling-fields.tsx";
import { TapPad } from "./tap-pad.tsx";

export interface EntryFormProps {
  readonly song: Song;
  readonly name: SongEntryName;
  readonly onDone: () => void;
}

interface Typed {
  readonly entry: SongEntry;
  readonly fields: SongFields;
  /** As it will be shown. */
  readonly text: string;
}

/**
 * The commands for one changed entry. A ruling also writes the song's own entry, except the tempo, which is a number
 * there and words in the ruling.
 */
const stepsFor = (song: Song, typed: Typed, ruling: RulingDraft, learnAgain: boolean): readonly Step[] => {
  const { entry, fields, text } = typed;
  const ruled = ruling.on && entry.about !== null && text !== "";
  const steps: Step[] = [];
  if (ruled && entry.about !== null) {
    const { source, why } = ruling;
    steps.push(step(rule, { song: song.id, about: entry.about, source, text, why: why.trim(), learnAgain }));
  }
  if (!ruled || entry.about === "tempo") steps.push(step(reviseSong, { song: song.id, fields, learnAgain }));
  return steps;
};

/** Changes one entry of a song in place. Escape leaves it as it was. */
export const EntryForm = ({ song, name, onDone }: EntryFormProps) => {
  const act = useActTogether();
  const entry = SONG_ENTRY[name];
  const [text, setText] = useState(() => entry.show(song));
  const [fault, setFault] = useState<string | undefined>();
  const [again, setAgain] = useState(false);
  const [ruling, setRuling] = useState<RulingDraft>(NO_RULING);
  const field = useRef<HTMLInputElement & HTMLTextAreaElement>(null);
  useEffect(() => field.current?.focus(), []);
  const asks = entry.learnable && text.trim() !== entry.show(song) && entry.show(song) !== "";

  const submit = (event: FormEvent) => {
    event.preventDefault();
    const read = entry.read(text);
    if (!read.ok) {
      setFault(read.error);
      field.current?.focus();
      return;
    }
    const shown = entry.show({ ...song, ...read.value });
    const typed = { entry, fields: read.value, text: shown };
    const label = `${song.title}: ${capital(entry.label)} ${shown === "" ? entry.empty : shown}`;
    if (act(stepsFor(song, typed, ruling, again && asks), label)) onDone();
  };
  const onKeyDown = (event: KeyboardEvent) => {
    if (event.key !== "Escape") return;
    event.stopPropagation();
    onDone();
  };
  const type = (value: string) => {
    setText(value);
    setFault(undefined);
  };
  const shared = {
    ref: field,
    label: entry.label,
    hint: entry.hint,
    error: fault,
    value: text,
    onChange: type,
  };

  return (
    <form
      onSubmit={submit}
      onKeyDown={onKeyDown}
      aria-label={`Change: ${entry.label}`}
      className="flex flex-col gap-4 border-l-2 border-control py-3 pl-3 no-print"
    >
      {entry.long ? <TextArea {...shared} /> : <TextField {...shared} />}
      {name === "tempo" ? <TapPad onTempo={(tempo) => type(String(tempo))} /> : null}
      {asks ? <LearnAgain what="song" value={again} onChange={setAgain} /> : null}
      {entry.about === null ? null : <RulingFields ruling={ruling} onChange={setRuling} />}
      <div className="flex flex-wrap gap-3">
        <Button tone="main" type="submit">
          Save
        </Button>
        <Button onClick={onDone}>Leave it as it was</Button>
      </div>
    </form>
  );
};
