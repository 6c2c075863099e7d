import Pencil from "lucide-react/icons/pencil";
import type { ReactNode } from "react";
import { useInPlace } from "#client/pieces/use-in-place.ts";
import { useAuthor } from "#client/store/hooks.ts";
import { IconButton } from "#client/ui/icon-button.tsx";
import type { Song } from "#shared/board/song.ts";
import { SONG_ENTRY, type SongEntryName } from "#shared/selectors/song-entries.ts";
import { EntryForm } from "./entry-form.tsx";

export interface EntryRowProps {
  readonly song: Song;
  readonly name: SongEntryName;
  /** Quiet words after the value. */
  readonly note?: ReactNode;
}

/** One entry of a song: its name, what is written, and the way to change it in place. */
export const EntryRow = ({ song, name, note }: EntryRowProps) => {
  const { role } = useAuthor();
  const { root, editing, edit, done } = useInPlace<HTMLDivElement>("button");
  const { label, show, empty } = SONG_ENTRY[name];
  const value = show(song);
  if (editing)
    return (
      <div ref={root} className="border-b border-line">
        <dt className="sr-only">{label}</dt>
        <dd>
          <EntryForm song={song} name={name} onDone={done} />
        </dd>
      </div>
    );
  return (
    <div ref={root} className="flex items-baseline gap-3 border-b border-line">
      <dt className="caption w-28 shrink-0 py-2">{label}</dt>
      <dd className="flex min-w-0 flex-1 items-center gap-3">
        <span className="min-w-0 flex-1 py-2 whitespace-pre-line">
          {value === "" ? <span className="expression text-quiet">{empty}</span> : value}
          {note ? <span className="caption block">{note}</span> : null}
        </span>
        {role === "guest" ? null : <IconButton icon={Pencil} label={`Change: ${label}`} onClick={edit} />}
      </dd>
    </div>
  );
};
