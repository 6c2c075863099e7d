import Pencil from "lucide-react/icons/pencil";
import { type ReactNode, useRef, useState } from "react";
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
  const [editing, setEditing] = useState(false);
  const row = useRef<HTMLDivElement>(null);
  const { label, show, empty } = SONG_ENTRY[name];
  const value = show(song);
  const done = () => {
    setEditing(false);
    requestAnimationFrame(() => row.current?.querySelector("button")?.focus());
  };
  return (
    <div ref={row} className="border-b border-line">
      {editing ? (
        <EntryForm song={song} name={name} onDone={done} />
      ) : (
        <div className="flex items-baseline gap-3">
          <dt className="caption w-28 shrink-0 py-2">{label}</dt>
          <dd className="min-w-0 flex-1 py-2 whitespace-pre-line">
            {value === "" ? <span className="expression text-quiet">{empty}</span> : value}
            {note ? <span className="caption block">{note}</span> : null}
          </dd>
          {role === "guest" ? null : (
            <IconButton
              icon={Pencil}
              label={`Change: ${label}`}
              className="self-center no-print"
              onClick={() => setEditing(true)}
            />
          )}
        </div>
      )}
    </div>
  );
};
