import { useDeferredValue, useState } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { useSongs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Checkbox } from "#client/ui/checkbox.tsx";
import { Sheet } from "#client/ui/sheet.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import type { Gig } from "#shared/board/band.ts";
import { callSongs } from "#shared/commands/call-song.ts";
import { repertoire } from "#shared/selectors/repertoire.ts";
import { songFacts } from "#shared/selectors/song-facts.ts";

export interface CallSongsSheetProps {
  readonly gig: Gig;
  readonly onClose: () => void;
}

/** Calls songs of the repertoire for a gig, in the order they are ticked. A search also finds resting songs. */
export const CallSongsSheet = ({ gig, onClose }: CallSongsSheetProps) => {
  const act = useAct();
  const songs = useSongs();
  const [search, setSearch] = useState("");
  const [ticked, setTicked] = useState<readonly string[]>([]);
  const shown = useDeferredValue(search);
  const called = new Set(gig.songs.map(({ song }) => song));
  const open = [...songs.values()].filter(({ song }) => !called.has(song.id));
  const groups = repertoire(open, { search: shown, stage: shown.trim() === "" ? "current" : "all" });
  const count = ticked.length === 1 ? "1 song" : `${ticked.length} songs`;
  const call = () => {
    if (act(callSongs, { gig: gig.id, songs: [...ticked] }, `Called ${count}`)) onClose();
  };
  return (
    <Sheet
      open
      modal
      onClose={onClose}
      title="Call songs"
      above={gig.name || gig.place}
      actions={
        <Button tone="main" disabled={ticked.length === 0} onClick={call}>
          {ticked.length === 0 ? "Tick what you will play" : `Call ${count}`}
        </Button>
      }
    >
      <TextField label="Search the repertoire" type="search" value={search} onChange={setSearch} />
      {groups.length === 0 ? (
        <p className="py-6 text-quiet">
          {songs.size === 0
            ? "There are no songs yet. Add them under Songs."
            : "No song matches, or all of them are called."}
        </p>
      ) : null}
      {groups.map((group) => (
        <fieldset key={group.stage} className="mt-4">
          <legend className="caption">{group.stage}</legend>
          {group.songs.map((song) => (
            <Checkbox
              key={song.id}
              label={song.title}
              hint={songFacts(song)}
              checked={ticked.includes(song.id)}
              onChange={(tick) =>
                setTicked((now) => (tick ? [...now, song.id] : now.filter((id) => id !== song.id)))
              }
            />
          ))}
        </fieldset>
      ))}
    </Sheet>
  );
};
