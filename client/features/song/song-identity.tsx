import { type FormEvent, useState } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { Button } from "#client/ui/button.tsx";
import { Checkbox } from "#client/ui/checkbox.tsx";
import { Dialog } from "#client/ui/dialog.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { Song } from "#shared/board/song.ts";
import { removeSong } from "#shared/commands/remove-record.ts";
import { reviseSong } from "#shared/commands/revise-song.ts";

const NAME_MAX = 200;

/** Title, style and whether the song was on stage before the log began; and taking it off the board. */
export const SongIdentity = ({ song }: { readonly song: Song }) => {
  const act = useAct();
  const [title, setTitle] = useState(song.title);
  const [style, setStyle] = useState(song.style);
  const [fault, setFault] = useState<string | undefined>();
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const name = title.trim();
    if (name === "") return setFault("Give the song a title.");
    if (name.length > NAME_MAX) return setFault(`A title has at most ${NAME_MAX} characters.`);
    const fields = {
      ...(name === song.title ? {} : { title: name }),
      ...(style.trim() === song.style ? {} : { style: style.trim() }),
    };
    act(reviseSong, { song: song.id, fields }, `Called: ${name}`);
  };
  return (
    <>
      <form onSubmit={submit} className="flex flex-col gap-3 py-2">
        <TextField
          label="Title"
          value={title}
          onChange={(value) => {
            setTitle(value);
            setFault(undefined);
          }}
          error={fault}
        />
        <TextField label="Style" value={style} onChange={setStyle} maxLength={NAME_MAX} />
        <Button type="submit" className="self-start">
          Save
        </Button>
      </form>
      <Checkbox
        label="Played at gigs before this log began"
        hint="Then it is no debut, and one run together is enough."
        checked={song.playedBefore}
        onChange={(playedBefore) =>
          act(
            reviseSong,
            { song: song.id, fields: { playedBefore } },
            playedBefore ? "Played before" : "Not played before",
          )
        }
      />
      <RemoveSong song={song} />
    </>
  );
};

const RemoveSong = ({ song }: { readonly song: Song }) => {
  const act = useAct();
  const [asking, setAsking] = useState(false);
  const remove = () => {
    setAsking(false);
    act(removeSong, { id: song.id }, `Taken off the board: ${song.title}`);
  };
  return (
    <>
      <Button tone="danger" className="my-3" onClick={() => setAsking(true)}>
        Take the song off the board
      </Button>
      <Dialog
        open={asking}
        onClose={() => setAsking(false)}
        title={`Take “${song.title}” off the board?`}
        actions={
          <>
            <Button tone="danger" onClick={remove}>
              Take it off
            </Button>
            <Button onClick={() => setAsking(false)}>Keep it</Button>
          </>
        }
      >
        <p>
          Its details, statuses and takes are kept; anybody can bring it back. To rest a song, set its stage.
        </p>
      </Dialog>
    </>
  );
};
