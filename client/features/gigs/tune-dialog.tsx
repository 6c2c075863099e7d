import { type FormEvent, useId, useState } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { Button } from "#client/ui/button.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { GigSong } from "#shared/board/band.ts";
import type { Song } from "#shared/board/song.ts";
import { tuneForGig } from "#shared/commands/call-song.ts";
import { ok } from "#shared/lib/result.ts";
import { formatKey, parseKey } from "#shared/music/key.ts";
import { parseTempo } from "#shared/music/tempo.ts";

export interface TuneDialogProps {
  readonly gig: string;
  readonly entry: GigSong;
  readonly song: Song;
  readonly onClose: () => void;
}

/** Empty text means the song's own. */
const readKey = (text: string) => {
  if (text.trim() === "") return ok(null);
  const key = parseKey(text);
  return key.ok ? ok(formatKey(key.value)) : key;
};
const readTempo = (text: string) => (text.trim() === "" ? ok(null) : parseTempo(text));

/** Key, tempo and tuning for one night only; afterwards the song is what it was. */
export const TuneDialog = ({ gig, entry, song, onClose }: TuneDialogProps) => {
  const act = useAct();
  const form = useId();
  const [key, setKey] = useState(entry.key ?? "");
  const [tempo, setTempo] = useState(entry.tempo === null ? "" : String(entry.tempo));
  const [tuning, setTuning] = useState(entry.tuning ?? "");
  const [tried, setTried] = useState(false);
  const [readK, readT] = [readKey(key), readTempo(tempo)];
  const save = (event: FormEvent) => {
    event.preventDefault();
    setTried(true);
    if (!readK.ok || !readT.ok) return;
    const words = tuning.trim();
    const args = {
      gig,
      song: song.id,
      key: readK.value,
      tempo: readT.value,
      tuning: words === "" ? null : words,
    };
    if (act(tuneForGig, args, `${song.title}: key, tempo and tuning for that night`)) onClose();
  };
  return (
    <Dialog
      open
      onClose={onClose}
      title={`${song.title}, that night only`}
      actions={
        <>
          <Button tone="main" type="submit" form={form}>
            Save
          </Button>
          <Button tone="quiet" onClick={onClose}>
            Leave it
          </Button>
        </>
      }
    >
      <form id={form} onSubmit={save} className="flex flex-col gap-4">
        <TextField
          label="Key"
          value={key}
          onChange={setKey}
          placeholder={song.key || "not settled"}
          hint={`Empty = the song's own key${song.key === "" ? "" : `, ${song.key}`}.`}
          error={tried && !readK.ok ? readK.error : undefined}
          data-first-focus
        />
        <TextField
          label="Tempo"
          inputMode="decimal"
          value={tempo}
          onChange={setTempo}
          placeholder={song.tempo === null ? "not settled" : String(song.tempo)}
          hint={`Empty = the song's own tempo${song.tempo === null ? "" : `, ${song.tempo}`}.`}
          error={tried && !readT.ok ? readT.error : undefined}
        />
        <TextField
          label="Tuning"
          value={tuning}
          onChange={setTuning}
          maxLength={200}
          placeholder={song.tuning || "the usual one"}
          hint={`Of the guitars, such as half step down. Empty = the song's own tuning${song.tuning === "" ? "" : `, ${song.tuning}`}.`}
        />
      </form>
    </Dialog>
  );
};
