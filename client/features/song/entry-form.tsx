import { useEffect, useRef, useState } from "react";
import { LearnAgain } from "#client/pieces/detail/learn-again.tsx";
import { InPlaceForm } from "#client/pieces/in-place-form.tsx";
import { NO_RULING, type RulingDraft, RulingFields } from "#client/pieces/ruling/ruling-fields.tsx";
import { type Step, step, useActTogether } from "#client/pieces/use-act.ts";
import { TextArea, TextField } from "#client/ui/text-field.tsx";
import type { Song } from "#shared/board/song.ts";
import { withChordKey } from "#shared/commands/first-chord.ts";
import { reviseSong } from "#shared/commands/revise-song.ts";
import { rule } from "#shared/commands/rule.ts";
import { capital } from "#shared/readiness/names.ts";
import {
  SONG_ENTRY,
  type SongEntry,
  type SongEntryName,
  type SongFields,
} from "#shared/selectors/song-entries.ts";
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

interface EntryDraft {
  readonly text: string;
  readonly type: (text: string) => void;
  readonly fault: string | undefined;
  readonly ruling: RulingDraft;
  readonly setRuling: (ruling: RulingDraft) => void;
  readonly again: boolean;
  readonly setAgain: (again: boolean) => void;
  /** The change may matter to those who have learnt the old entry. */
  readonly asks: boolean;
  /** Reads the draft and writes it; false = something in it is wrong, and `fault` says what. */
  readonly save: () => boolean;
}

const useEntryDraft = (song: Song, entry: SongEntry): EntryDraft => {
  const act = useActTogether();
  const before = entry.show(song);
  const [text, setText] = useState(before);
  const [fault, setFault] = useState<string | undefined>();
  const [again, setAgain] = useState(false);
  const [ruling, setRuling] = useState<RulingDraft>(NO_RULING);
  const asks = entry.learnable && before !== "" && text.trim() !== before;
  const save = (): boolean => {
    const read = entry.read(text);
    if (!read.ok) {
      setFault(read.error);
      return false;
    }
    const shown = entry.show({ ...song, ...withChordKey(read.value, song) });
    const typed = { entry, fields: read.value, text: shown };
    const label = `${song.title}: ${capital(entry.label)} ${shown === "" ? entry.empty : shown}`;
    return act(stepsFor(song, typed, ruling, again && asks), label);
  };
  const type = (value: string) => {
    setText(value);
    setFault(undefined);
  };
  return { text, type, fault, ruling, setRuling, again, setAgain, asks, save };
};

/** Changes one entry of a song in place. */
export const EntryForm = ({ song, name, onDone }: EntryFormProps) => {
  const entry = SONG_ENTRY[name];
  const draft = useEntryDraft(song, entry);
  const field = useRef<HTMLInputElement & HTMLTextAreaElement>(null);
  useEffect(() => field.current?.focus(), []);
  const { label, hint, long } = entry;
  const wiring = { label, hint, ref: field, error: draft.fault, value: draft.text, onChange: draft.type };
  return (
    <InPlaceForm
      label={label}
      onLeave={onDone}
      onSave={() => {
        if (draft.save()) onDone();
        else field.current?.focus();
      }}
    >
      {long ? <TextArea {...wiring} /> : <TextField {...wiring} />}
      {name === "tempo" ? <TapPad onTempo={(tempo) => draft.type(String(tempo))} /> : null}
      {draft.asks ? <LearnAgain what="song" value={draft.again} onChange={draft.setAgain} /> : null}
      {entry.about === null ? null : <RulingFields ruling={draft.ruling} onChange={draft.setRuling} />}
    </InPlaceForm>
  );
};
